import { Bound } from './bound.ts';
import { type Core, coreOf } from './core.ts';
import { type Decision, Exact } from './exact.ts';
import { LookAhead } from './look-ahead.ts';
import type { Ending, Problem, Tree } from './problem.ts';
import { parts, type State, split, start, weightOf } from './state.ts';

export interface Options {
  /** How many sets of suspects the best order may be sought for before a good one has to do. */
  readonly states?: number;
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

/** A tree of few mean minutes: the best one where that can be found within `states`, else a good one with a bound. */
export function bestTree(problem: Problem, { states = 20_000, cancelled = () => false }: Options = {}): BestTree {
  const core = coreOf(problem);
  const root = start(core);
  const bound = new Bound(core);
  const exact = new Exact(core, bound, cancelled);
  const best = exact.decide(root, states);
  const lookAhead = new LookAhead(core, exact, cancelled);
  const grown = grow(problem, core, root, state => (best && exact.decide(state, states)) ?? lookAhead.decide(state));
  const optimal = best !== undefined;
  const lowerBound = optimal ? grown.minutes : Math.min(grown.minutes, boundOf(core, bound, root));
  return { ...grown, lowerBound, optimal };
}

/** The bound of the root, or what the best first step makes of the bounds after it where this is more. */
function boundOf(core: Core, bound: Bound, root: State): number {
  const afterOne = core.tests.flatMap((test, place) => {
    if (!parts(core, root, test)) return [];
    const branches = split(core, root, place).map(branch => (branch ? bound.of(branch) : 0));
    return [branches.reduce((sum, minutes) => sum + minutes, weightOf(root) * test.minutes)];
  });
  return Math.max(bound.of(root), Math.min(...afterOne));
}

function grow(problem: Problem, core: Core, state: State, decide: (state: State) => Decision): Grown {
  const { test: place } = decide(state);
  if (place === undefined) {
    const suspects = state.items.flatMap(item => core.items[item]!.suspects).sort((a, b) => a - b);
    const owners = new Set(suspects.map(suspect => problem.suspects[suspect]!.owner));
    const ending = { suspects };
    return { tree: ending, minutes: 0, ambiguous: owners.size > 1 ? [ending] : [] };
  }
  const test = core.tests[place]!;
  const branches = split(core, state, place).flatMap((branch, outcome) =>
    branch ? [{ outcome: test.outcomes[outcome]!, ...grow(problem, core, branch, decide) }] : [],
  );
  return {
    tree: { test: test.index, branches: branches.map(({ outcome, tree }) => ({ outcome, tree })) },
    minutes: branches.reduce((sum, branch) => sum + branch.minutes, weightOf(state) * test.minutes),
    ambiguous: branches.flatMap(branch => branch.ambiguous),
  };
}

type Grown = Pick<BestTree, 'tree' | 'minutes' | 'ambiguous'>;
