import type { Finding, Fix } from '../../base/finding.ts';
import { formatLimit } from '../../base/quantity/limit.ts';
import { addBranch } from '../fixes.ts';
import { joined, name } from '../wording.ts';
import { inEachNumericStep, type NumericStep, type Taken } from './numeric-step.ts';
import { described, gapsBetween, type Region } from './region.ts';

/** The readings of a step that lead nowhere, all in one message: what is missing is one `otherwise`. */
export interface Hole {
  readonly kind: 'gap' | 'below zero' | 'over limit';
  readonly finding: Omit<Finding, 'rule'>;
}

export const holes = inEachNumericStep(function* (step): Generator<Hole> {
  if (step.otherwise || step.taken.length === 0 || hasUnknownRange(step)) return;
  const gaps = gapsBetween(
    step.taken.map(t => t.region),
    step.dimension,
    step.meter,
  );
  const first = gaps[0];
  if (!first) return;
  const kind = kindOf(step, gaps);
  yield { kind, finding: finding(step, gaps, first, kind) };
});

/** `within` and its like take nothing that is known while there are no limits; another rule says so. */
function hasUnknownRange({ data, limit }: NumericStep): boolean {
  return !limit && data.branches.some(b => ['within', 'below', 'above'].includes(b.match.on));
}

function kindOf({ dimension }: NumericStep, gaps: readonly Region[]): Hole['kind'] {
  const [gap] = gaps;
  if (!gap || gaps.length > 1) return 'gap';
  if (dimension === 'resistance' && gap.high === Infinity) return 'over limit';
  return gap.low === -Infinity && gap.high <= 0 ? 'below zero' : 'gap';
}

function finding(step: NumericStep, gaps: readonly Region[], first: Region, kind: Hole['kind']): Hole['finding'] {
  const { dimension } = step;
  const beside = neighbour(step, first);
  const where = gaps.map(gap => described(gap, dimension));
  const message =
    kind === 'over limit'
      ? 'A reading of `OL` leads nowhere'
      : kind === 'below zero'
        ? 'A reading below zero leads nowhere'
        : `A reading ${where[0]} leads nowhere`;
  const all = kind === 'over limit' ? [`of \`OL\`, or ${where[0]!.replace('of `OL`', 'beyond the meter')}`] : where;
  return {
    place: beside.branch.key.place,
    message,
    detail: `No branch of ${name(step.step.id)} takes a reading ${joined(all, 'or')}. ${reasons[kind]}`,
    help: 'Add `otherwise`, or let a branch reach further.',
    fixes: [...extension(beside, first, step), ...addBranch(step.step, step.data, 'otherwise')],
  };
}

const reasons: Record<Hole['kind'], string> = {
  gap: 'A technician who reads one has no instruction.',
  'below zero': 'Swapped leads, or a current that flows the other way, give one.',
  'over limit': 'An open circuit, the most common fault of all, shows it.',
};

/** The branch that ends where the gap begins, else the one that begins where it ends. */
function neighbour({ taken }: NumericStep, gap: Region): Taken {
  return taken.find(t => t.region.high === gap.low) ?? taken.find(t => t.region.low === gap.high) ?? taken.at(-1)!;
}

/** A branch with a limit of its own is moved up to its neighbour. */
function extension({ branch, region }: Taken, gap: Region, { dimension }: NumericStep): readonly Fix[] {
  if (branch.match.on !== 'limit') return [];
  const limit = { ...branch.match.limit, dimension };
  const wider =
    region.high === gap.low
      ? { ...limit, high: gap.high, highOpen: true, overLimit: gap.overLimit }
      : { ...limit, low: gap.low, lowOpen: true };
  if (wider.low === -Infinity && wider.high === Infinity) return [];
  const text = formatLimit(wider);
  return [{ title: `Make it \`${text}\``, edits: [{ place: branch.key.place, text }] }];
}
