import { type Core, coreOf } from './core.ts';
import { Exact, isLess } from './exact.ts';
import { LookAhead } from './look-ahead.ts';
import type { Ending, Problem, Tree } from './problem.ts';
import { type State, split, start, weightOf } from './state.ts';

export interface Options {
  /** How often a suspect may be put through a test in the search for the best order, before a good one has to do. */
  readonly effort?: number;
  /** Ends the search early: the tree is complete even so, only less good. */
  readonly cancelled?: () => boolean;
}

export interface BestTree {
  readonly tree: Tree;
  /** Mean minutes to an ending. */
  readonly minutes: number;
  /** No tree needs fewer mean minutes. */
  readonly lowerBound: number;
  /** `minutes` is proved to be the least. */
  readonly optimal: boolean;
  /** The endings at which several owners are left, as no test parts them. */
  readonly ambiguous: readonly Ending[];
}

/** A tree of few mean minutes: the best one where `effort` is enough to find it, else a good one with a bound. */
export function bestTree(problem: Problem, { effort = 3e5, cancelled = () => false }: Options = {}): BestTree {
  const core = coreOf(problem);
  const root = start(core);
  const exact = new Exact(core, cancelled);
  const lookAhead = new LookAhead(core, exact, cancelled);
  const good = grow(problem, core, root, state => lookAhead.choose(state));
  const known = exact.improve(root, good.minutes, effort);
  if (known.reached) {
    const best = grow(problem, core, root, state => exact.prove(state, Infinity, 0).test);
    return { ...best, lowerBound: best.minutes, optimal: true };
  }
  const optimal = !isLess(known.atLeast, good.minutes);
  return { ...good, lowerBound: optimal ? good.minutes : known.atLeast, optimal };
}

function grow(problem: Problem, core: Core, state: State, choose: (state: State) => number | undefined): Grown {
  const place = choose(state);
  if (place === undefined) {
    const suspects = state.items.flatMap(item => core.items[item]!.suspects).sort((a, b) => a - b);
    const owners = new Set(suspects.map(suspect => problem.suspects[suspect]!.owner));
    const ending = { suspects };
    return { tree: ending, minutes: 0, ambiguous: owners.size > 1 ? [ending] : [] };
  }
  const test = core.tests[place]!;
  const branches = split(core, state, place).flatMap((branch, outcome) =>
    branch ? [{ outcome: test.outcomes[outcome]!, ...grow(problem, core, branch, choose) }] : [],
  );
  return {
    tree: { test: test.index, branches: branches.map(({ outcome, tree }) => ({ outcome, tree })) },
    minutes: branches.reduce((sum, branch) => sum + branch.minutes, weightOf(state) * test.minutes),
    ambiguous: branches.flatMap(branch => branch.ambiguous),
  };
}

type Grown = Pick<BestTree, 'tree' | 'minutes' | 'ambiguous'>;
