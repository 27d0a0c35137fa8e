import type { Situation } from '../../analysis/situation.ts';
import { type BestTree, bestTree } from '../../sequence/best-tree.ts';
import type { Tree } from '../../sequence/problem.ts';
import type { Bench } from '../bench.ts';
import type { Candidate } from '../candidate.ts';
import { candidatesIn } from '../candidates.ts';
import { roughly, type Shows, surely, type Told, toldBy } from '../outcomes.ts';
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
const mostRounds = 16;

/** The best order found of what can be read and measured in one situation; the good machine comes last among the suspects and only sets the limits. */
export function planTests(
  one: Bench,
  situation: Situation,
  suspects: readonly Suspect[],
  good: Suspect,
  cancelled: () => boolean = () => false,
): Planned {
  const everybody = [...suspects, good];
  const all = candidatesIn(one, situation, everybody).filter(({ what }) => what.do !== 'inspect');
  const shows: Shows[][] = all.map(({ shown }) => shown.map(roughly));
  const steps = all.map((candidate, i) => stepOf(candidate, toldBy(shows[i]!), suspects.length));
  const isSure = new Set<string>();
  /** Looks with all tolerances at what each test shows for the suspects that come to it. False where all of it was known. */
  const makeSure = (uses: ReadonlyMap<number, ReadonlySet<number>>): boolean => {
    let isNews = false;
    for (const [place, coming] of uses) {
      for (const suspect of [...coming, suspects.length]) {
        if (cancelled()) return false;
        const key = `${place} ${suspect}`;
        if (isSure.has(key)) continue;
        isSure.add(key);
        isNews = true;
        shows[place]![suspect] = surely(all[place]!, one, situation, everybody, suspect);
      }
      steps[place] = stepOf(all[place]!, toldBy(shows[place]!), suspects.length);
    }
    return isNews;
  };
  for (let round = 0; ; round++) {
    const usable = steps.flatMap((step, place) => (step ? [{ step, place }] : []));
    const tests = usable.map(({ step }) => ({
      minutes: step.candidate.minutes,
      outcomes: step.by.slice(0, suspects.length).map(by => [by]),
    }));
    const plan = (effort: number) => bestTree({ suspects, tests }, { effort, cancelled });
    const news = (tree: Tree) => makeSure(usesIn(tree, place => usable[place]!.place));
    // The search for the very best is worth its time only once what it goes by is sure.
    if (round < mostRounds && news(plan(0).tree)) continue;
    const best = plan(effortAtEnd);
    if (round >= mostRounds || !news(best.tree)) return { best, steps: usable.map(({ step }) => step) };
  }
}

const effortAtEnd = 3e5;

/** By test: the suspects that come to it. */
function usesIn(tree: Tree, placeOf: (test: number) => number): ReadonlyMap<number, ReadonlySet<number>> {
  const found = new Map<number, Set<number>>();
  const visit = (node: Tree): readonly number[] => {
    if (node.test === undefined) return node.suspects;
    const coming = node.branches.flatMap(branch => visit(branch.tree));
    const known = found.get(placeOf(node.test)) ?? new Set();
    for (const one of coming) known.add(one);
    found.set(placeOf(node.test), known);
    return coming;
  };
  visit(tree);
  return found;
}

function stepOf(candidate: Candidate, told: Told, good: number): Step | undefined {
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
