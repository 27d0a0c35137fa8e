import type { Situation } from '../../analysis/situation.ts';
import { type BestTree, bestTree } from '../../sequence/best-tree.ts';
import type { Tree } from '../../sequence/problem.ts';
import type { Bench } from '../bench.ts';
import type { Candidate } from '../candidate.ts';
import { candidatesIn } from '../candidates.ts';
import { toldRoughly, toldSurely } from '../outcomes.ts';
import type { Suspect } from '../suspect.ts';
import { type Banded, bandsFor } from './bands.ts';

/** A test as a step of a procedure can have it: its branches, and by suspect which of them is taken. */
export interface Step {
  readonly candidate: Candidate;
  /** Absent for a state: `branches` are words then. */
  readonly banded?: Banded;
  readonly words?: readonly string[];
  readonly by: readonly number[];
}

export interface Planned {
  readonly best: BestTree;
  readonly steps: readonly Step[];
}

/** What was chosen by nominal values is looked at with all tolerances, and chosen anew where these leave less than it seemed. */
const mostRounds = 12;

/** The best order found of what can be read and measured in one situation; the good machine comes last among the suspects and only sets the limits. */
export function planTests(one: Bench, situation: Situation, suspects: readonly Suspect[], good: Suspect): Planned {
  const everybody = [...suspects, good];
  const all = candidatesIn(one, situation, everybody).filter(({ what }) => what.do !== 'inspect');
  const steps: (Step | undefined)[] = all.map(candidate => stepOf(candidate, toldRoughly(candidate), suspects.length));
  const isSure = new Set<number>();
  for (let round = 0; ; round++) {
    const usable = steps.flatMap((step, place) => (step ? [{ step, place }] : []));
    const tests = usable.map(({ step }) => ({
      minutes: step.candidate.minutes,
      outcomes: step.by.slice(0, suspects.length).map(by => [by]),
    }));
    const best = bestTree({ suspects, tests }, { effort: effortPerRound });
    const used = testsIn(best.tree).map(test => usable[test]!.place);
    const fresh = used.filter(place => !isSure.has(place));
    if (fresh.length === 0 || round === mostRounds) return { best, steps: usable.map(({ step }) => step) };
    for (const place of fresh) {
      const candidate = all[place]!;
      steps[place] = stepOf(candidate, toldSurely(candidate, one, situation, everybody), suspects.length);
      isSure.add(place);
    }
  }
}

const effortPerRound = 3e5;

function stepOf(candidate: Candidate, told: ReturnType<typeof toldRoughly>, good: number): Step | undefined {
  if (candidate.what.do === 'read') {
    const words = told.outcomes.map(({ word }) => word ?? '');
    // What a good machine shows is expected; all else is one.
    const home = told.by[good]!;
    if (words[home] === '' || candidate.shown[good] === '') return undefined;
    return { candidate, words: [String(candidate.shown[good])], by: told.by.map(by => (by === home ? 0 : 1)) };
  }
  const banded = bandsFor(told, good);
  return banded && { candidate, banded, by: banded.by };
}

function testsIn(tree: Tree): readonly number[] {
  if (tree.test === undefined) return [];
  return [...new Set([tree.test, ...tree.branches.flatMap(branch => testsIn(branch.tree))])];
}
