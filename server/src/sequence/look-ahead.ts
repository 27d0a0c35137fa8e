import type { Core } from './core.ts';
import { type Exact, isLess } from './exact.ts';
import { teller } from './information.ts';
import { keyOf, type State, split, weightOf, worthDoing } from './state.ts';

/** How many tests are followed to the end at each state. */
const followed = 4;
/** Where so few items are left the best order is sought, with so much effort: on the way that is taken, and on those only followed. */
const taken = { items: 16, effort: 5e4 };
const onlyFollowed = { items: 5, effort: 5e3 };

/**
 * A good order, for problems that are too large for the best one. The tests that tell the most per minute are each followed to the
 * end, as if after them always the test were done that tells the most per minute; that with the fewest minutes is taken. So no order
 * gets worse than the one that looks a single step ahead. The last tests, where few items are left,
 * come in the best order.
 */
export class LookAhead {
  private readonly core: Core;
  private readonly exact: Exact;
  private readonly stop: () => boolean;
  private readonly oneStep = new Map<string, Followed>();

  constructor(core: Core, exact: Exact, stop: () => boolean) {
    this.core = core;
    this.exact = exact;
    this.stop = stop;
  }

  /** The place of the test to do, or nothing where testing ends. */
  choose(state: State): number | undefined {
    if (state.items.length <= taken.items || this.stop()) {
      const good = this.follow(state);
      const known = this.exact.improve(state, good.minutes, taken.effort);
      if (known.reached) return known.test;
      if (this.stop() || !isLess(known.atLeast, good.minutes)) return good.test;
    }
    let best: Followed | undefined;
    for (const test of this.byGain(state, followed)) {
      const minutes = this.after(state, test);
      if (!best || isLess(minutes, best.minutes)) best = { minutes, test };
    }
    return best?.test;
  }

  /** Minutes times weight where always the test is done that tells the most per minute, until few items are left. */
  follow(state: State): Followed {
    const key = keyOf(state);
    let known = this.oneStep.get(key);
    if (!known) {
      known = this.mostTelling(state);
      if (state.items.length <= onlyFollowed.items) known = this.better(state, known);
      this.oneStep.set(key, known);
    }
    return known;
  }

  private better(state: State, good: Followed): Followed {
    const { reached, atLeast, test } = this.exact.prove(state, good.minutes, onlyFollowed.effort);
    return reached ? { minutes: atLeast, test } : good;
  }

  private mostTelling(state: State): Followed {
    const [test] = this.byGain(state, 1);
    return test === undefined ? { minutes: 0 } : { minutes: this.after(state, test), test };
  }

  private after(state: State, test: number): number {
    let minutes = weightOf(state) * this.core.tests[test]!.minutes;
    for (const branch of split(this.core, state, test)) if (branch) minutes += this.follow(branch).minutes;
    return minutes;
  }

  /** The tests that tell the most per minute, the best first; of equals the first of the problem. */
  private byGain(state: State, count: number): number[] {
    const tests = worthDoing(this.core, state);
    if (tests.length < 2) return tests;
    const tells = teller(this.core, state);
    const rated = tests.map(place => {
      const { minutes } = this.core.tests[place]!;
      const { owner, item } = tells(place);
      return { place, gain: perMinute(owner, minutes), hidden: perMinute(item, minutes) };
    });
    rated.sort((a, b) => compare(b.gain, a.gain) || compare(b.hidden, a.hidden) || a.place - b.place);
    return rated.slice(0, count).map(({ place }) => place);
  }
}

interface Followed {
  readonly minutes: number;
  readonly test?: number;
}

/** What a test tells per minute; without end where it takes no time, and nothing where it tells nothing. */
export function perMinute(bits: number, minutes: number): number {
  return bits <= 1e-12 ? 0 : bits / minutes;
}

function compare(a: number, b: number): number {
  if (a === b) return 0;
  return isLess(a, b) ? -1 : isLess(b, a) ? 1 : 0;
}
