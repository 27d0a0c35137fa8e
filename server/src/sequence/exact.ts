import type { Bound } from './bound.ts';
import type { Core } from './core.ts';
import { hasOneOwner, keyOf, parts, type State, split, weightOf } from './state.ts';

/** What is best at a state: the place of a test in the core, or none where testing ends; minutes times weight from there on. */
export interface Decision {
  readonly minutes: number;
  readonly test?: number;
}

/**
 * The best decision at a state by dynamic programming over the sets of items left, depth first; a test is not looked into when what it
 * costs at the least is no less than what is found already. `allowance` is how many states may still be opened: when it is spent,
 * or the search is told to stop, `decide` gives nothing, and what was found for other states stays valid.
 */
export class Exact {
  private readonly core: Core;
  private readonly bound: Bound;
  private readonly stop: () => boolean;
  private readonly known = new Map<string, Decision>();
  private allowance = 0;

  constructor(core: Core, bound: Bound, stop: () => boolean) {
    this.core = core;
    this.bound = bound;
    this.stop = stop;
  }

  decide(state: State, allowance: number): Decision | undefined {
    this.allowance = allowance;
    return this.search(state);
  }

  private search(state: State): Decision | undefined {
    if (hasOneOwner(this.core, state)) return { minutes: 0 };
    const key = keyOf(state);
    const known = this.known.get(key);
    if (known) return known;
    if (this.allowance-- <= 0 || this.stop()) return undefined;
    let best: Decision | undefined;
    for (const { test, atLeast, branches } of this.choices(state)) {
      if (best && !isLess(atLeast, best.minutes)) break;
      const minutes = this.follow(branches, atLeast, best?.minutes);
      if (minutes === undefined) return undefined;
      if (!best || isLess(minutes, best.minutes)) best = { minutes, test };
    }
    best ??= { minutes: 0 };
    this.known.set(key, best);
    return best;
  }

  /** The minutes of a test and all that follows: a bound that grows true branch by branch, or some number beyond `limit`. */
  private follow(branches: readonly Rated[], atLeast: number, limit = Infinity): number | undefined {
    let minutes = atLeast;
    for (const { state, bound } of branches) {
      const decision = this.search(state);
      if (!decision) return undefined;
      minutes += decision.minutes - bound;
      if (!isLess(minutes, limit)) break;
    }
    return minutes;
  }

  /** The tests worth doing, that which may cost the least first; of equals the first of the problem. */
  private choices(state: State) {
    const weight = weightOf(state);
    const choices = this.core.tests.flatMap((test, place) => {
      if (!parts(this.core, state, test)) return [];
      const branches = split(this.core, state, place).flatMap(branch =>
        branch ? [{ state: branch, bound: this.bound.of(branch) }] : [],
      );
      const atLeast = branches.reduce((sum, { bound }) => sum + bound, weight * test.minutes);
      return [{ test: place, atLeast, branches }];
    });
    return choices.sort((a, b) => a.atLeast - b.atLeast || a.test - b.test);
  }
}

interface Rated {
  readonly state: State;
  readonly bound: number;
}

/** Less by more than what adding in another order makes of a number. */
export function isLess(a: number, b: number): boolean {
  return a + 1e-12 * Math.max(1, Math.abs(a)) < b;
}
