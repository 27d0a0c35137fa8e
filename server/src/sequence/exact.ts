import { Bound } from './bound.ts';
import type { Core } from './core.ts';
import { hasOneOwner, keyOf, type State, split, weightOf, worthDoing } from './state.ts';

/** What is known of a state, in minutes times weight from there on. */
export interface Known {
  /** No way to go on takes less. */
  readonly atLeast: number;
  /** `atLeast` is reached, by `test` first (a place in the core), or by ending here where there is none. */
  readonly reached: boolean;
  readonly test?: number;
}

interface Proved extends Known {
  /** Of the effort. */
  readonly spent: number;
}

/**
 * The best order by dynamic programming over the sets of items left, depth first, each set once. A way is left as soon as it is
 * proved to take no less than another one; what was proved is kept, so that asking again with a higher limit goes on from there.
 * `effort` counts how often an item is put through a test. When it is spent, or the search is told to stop, no more is proved; all
 * that was stays true.
 */
export class Exact {
  private readonly core: Core;
  private readonly bound: Bound;
  private readonly stop: () => boolean;
  private readonly known = new Map<string, Known>();
  private effort = 0;

  constructor(core: Core, stop: () => boolean) {
    this.core = core;
    this.bound = new Bound(core);
    this.stop = stop;
  }

  /** What is best at a state where that is below `limit`; else that it is not, as far as it could be proved. */
  prove(state: State, limit: number, effort: number): Proved {
    this.effort = effort;
    const known = this.search(this.rate(state), limit);
    return { ...known, spent: effort - this.effort };
  }

  /**
   * Looks for what is below `minutes`, or proves that nothing is. What lies near the bound is looked into first: where the effort does
   * not last, that has raised the bound the most.
   */
  improve(state: State, minutes: number, effort: number): Proved {
    let known = this.prove(state, 0, 0);
    let left = effort;
    while (!known.reached && isLess(known.atLeast, minutes) && left > 0) {
      const gap = minutes - known.atLeast;
      known = this.prove(state, gap < 0.01 * minutes ? minutes : known.atLeast + gap / 4, left);
      // Nothing is spent when the search is told to stop.
      if (known.spent === 0) break;
      left -= known.spent;
    }
    return { ...known, spent: effort - left };
  }

  private search({ state, key, atLeast }: Rated, limit: number): Known {
    const known = this.known.get(key) ?? { atLeast, reached: false };
    if (known.reached || !isLess(known.atLeast, limit)) return known;
    if (this.effort <= 0 || this.stop()) return known;
    this.effort -= state.items.length;
    const found = this.best(this.choices(state, limit), limit);
    this.known.set(key, found);
    return found;
  }

  private best(choices: readonly Choice[], limit: number): Known {
    if (choices.length === 0) return { atLeast: 0, reached: true };
    let best: Known = { atLeast: Infinity, reached: false };
    for (const { test, atLeast, branches } of choices) {
      const least = Math.min(best.atLeast, limit);
      // The choices stand in ascending order, so none that follows can do better either.
      if (!isLess(atLeast, least)) return isLess(atLeast, best.atLeast) ? { atLeast, reached: false } : best;
      const followed = this.follow(branches, atLeast, least);
      if (isLess(followed.atLeast, best.atLeast)) best = { ...followed, test };
    }
    return best;
  }

  /** A test and all that follows it: what it takes at the least grows true branch by branch, until it is no less than `limit`. */
  private follow(branches: readonly Rated[], atLeast: number, limit: number): Known {
    let reached = true;
    for (const branch of branches) {
      const known = this.search(branch, limit - atLeast + branch.atLeast);
      atLeast += known.atLeast - branch.atLeast;
      reached &&= known.reached;
      if (!isLess(atLeast, limit)) return { atLeast, reached: false };
    }
    return { atLeast, reached };
  }

  /**
   * The tests worth doing, that which may cost the least first; of equals the first of the problem. Of those that are soon seen to cost
   * no less than `limit` the branches are not made.
   */
  private choices(state: State, limit: number): Choice[] {
    const weight = weightOf(state);
    const soon = this.bound.after(state);
    const choices = worthDoing(this.core, state).map(test => {
      const branches: Rated[] = [];
      let atLeast = soon(test);
      if (!isLess(atLeast, limit)) return { test, atLeast, branches };
      this.effort -= state.items.length;
      atLeast = weight * this.core.tests[test]!.minutes;
      for (const branch of split(this.core, state, test)) {
        if (!branch) continue;
        const rated = this.rate(branch);
        atLeast += rated.atLeast;
        branches.push(rated);
      }
      return { test, atLeast, branches };
    });
    return choices.sort((a, b) => a.atLeast - b.atLeast || a.test - b.test);
  }

  private rate(state: State): Rated {
    const key = keyOf(state);
    let known = this.known.get(key);
    if (!known) {
      const isEnding = hasOneOwner(this.core, state);
      known = { atLeast: isEnding ? 0 : this.bound.of(state), reached: isEnding };
      this.known.set(key, known);
    }
    return { state, key, atLeast: known.atLeast };
  }
}

interface Choice {
  readonly test: number;
  readonly atLeast: number;
  readonly branches: readonly Rated[];
}

interface Rated {
  readonly state: State;
  readonly key: string;
  readonly atLeast: number;
}

/** Less by more than what adding in another order makes of a number. */
export function isLess(a: number, b: number): boolean {
  return a + 1e-12 * Math.max(1, Math.abs(a)) < b;
}
