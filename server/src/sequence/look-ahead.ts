import type { Core } from './core.ts';
import { isLess } from './exact.ts';
import { teller } from './information.ts';
import { keyOf, type State, split, weightOf, worthDoing } from './state.ts';

/** How many tests are followed to the end at each state. */
const followed = 6;

/**
 * A good order for problems that are too large for the best one. The tests that tell the most per minute are each followed to the
 * end, as if after them always the test were done that tells the most per minute; that with the fewest minutes is taken. So no order
 * gets worse than the one that looks a single step ahead.
 */
export class LookAhead {
  private readonly core: Core;
  private readonly stop: () => boolean;
  private readonly oneStep = new Map<string, Followed>();

  constructor(core: Core, stop: () => boolean) {
    this.core = core;
    this.stop = stop;
  }

  /** The place of the test to do, or nothing where testing ends. */
  choose(state: State): number | undefined {
    if (this.stop()) return this.followOneStep(state).test;
    let best: Followed | undefined;
    for (const test of this.byGain(state, followed)) {
      const minutes = this.after(state, test);
      if (!best || isLess(minutes, best.minutes)) best = { minutes, test };
    }
    return best?.test;
  }

  /** Minutes times weight where `test` comes first and then always what tells the most per minute. */
  after(state: State, test: number): number {
    let minutes = weightOf(state) * this.core.tests[test]!.minutes;
    for (const branch of split(this.core, state, test)) if (branch) minutes += this.followOneStep(branch).minutes;
    return minutes;
  }

  followOneStep(state: State): Followed {
    if (state.items.length === 1) return { minutes: 0 };
    const key = keyOf(state);
    let decision = this.oneStep.get(key);
    if (!decision) {
      const [test] = this.byGain(state, 1);
      decision = test === undefined ? { minutes: 0 } : { minutes: this.after(state, test), test };
      this.oneStep.set(key, decision);
    }
    return decision;
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
