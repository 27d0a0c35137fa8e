import type { ProcedureView } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';
import { formatRange } from '../../base/quantity/format.ts';
import type { StepData } from '../../model/step.ts';
import type { Move } from '../../proof/explore.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { asFinding, blamed, faultsInWords, leadsTo } from './blame.ts';
import { heaterBut, soundHeater } from './example.ts';
import { badWalks } from './proved.ts';

export const undecidedWithinTolerances: Rule = {
  id: 'undecided-within-tolerances',
  severity: 'warning',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A fault that some machines show and others do not',
  explanation: `
Every fault is walked through the procedure with all values that parts and supply may have inside their tolerances, and with what the meter
may be off. With this fault some machines fall on one side of these limits and some on the other, and one side leads to a bad end. The message
names a machine that goes there.

Move the limits to where no machine with the fault lies, or measure where the fault shows more.`,
  bad: heaterBut([
    'limits: above 1 A\n',
    `limits: above 0.63 A
#           ^^^^^^^^^^^^ warning undecided-within-tolerances: 2 faults may fall on either side of these limits, first \`H1.1 high resistance\`
`,
  ]),
  good: soundHeater,
  *check(view) {
    // A good machine that may end at a repair is told there.
    const walks = badWalks(
      view,
      ({ fault, worst }) => worst.isUndecided && (fault !== undefined || worst.result !== 'wrong part'),
    );
    for (const about of blamed(walks, walk => placeOfDecision(view, walk))) {
      const [first] = about.walks;
      const { range, at, data } = decisionOn(first) ?? {};
      const may = data && isMeasured(data) ? 'may fall on either side of these limits' : 'may be told here or not';
      const reads = range
        ? `At ${name(at!)} it reads ${formatRange(range.low, range.high, range.dimension, 'outward')}. `
        : '';
      yield asFinding('undecided-within-tolerances', view, about, {
        message: first.fault ? faultsInWords(about, may, may) : `A good machine ${may}`,
        detail: `${reads}One machine ${leadsTo(first.worst.end)}, another does not.`,
        help: 'Move the limits out of the range of the fault, or measure where it shows more.',
      });
    }
  },
};

function placeOfDecision(view: ProcedureView, walk: ProvedWalk): Place | undefined {
  const move = decisionOn(walk);
  const step = move && view.procedure.steps.get(move.at);
  return (move && limitsOf(move.data)) ?? step?.place ?? view.procedure.start?.place;
}

/** The last step at which tolerances decide; one with limits before any other. */
function decisionOn({ worst: { end }, exploration }: ProvedWalk): Move | undefined {
  const ofAll = exploration.ends.find(other => other.kind === end.kind && sameName(other) === sameName(end)) ?? end;
  const decisive = ofAll.path.filter(({ outcome: { why } }) => why === 'tolerance' || why === 'enclosed');
  return decisive.findLast(({ data }) => isMeasured(data)) ?? decisive.at(-1) ?? end.path.at(-1);
}

function isMeasured({ action: { verb } }: StepData): boolean {
  return verb === 'measure' || verb === 'read';
}

function sameName(end: ProvedWalk['worst']['end']): string {
  return end.kind === 'ending' ? end.name : end.at;
}

function limitsOf({ action, actionPlace }: StepData): Place | undefined {
  if (action.verb === 'measure') return action.limits?.place ?? action.specification?.place ?? actionPlace;
  return action.verb === 'read' ? (action.limits?.place ?? actionPlace) : undefined;
}
