import type { Options } from './best-tree.ts';
import { type Core, coreOf } from './core.ts';
import { Exact, isLess } from './exact.ts';
import { teller } from './information.ts';
import { LookAhead, perMinute } from './look-ahead.ts';
import type { Problem } from './problem.ts';
import { split, start, worthDoing } from './state.ts';

/** What one test tells. */
export interface Gain {
  /** Its place in the problem. */
  readonly test: number;
  /** What it is expected to tell about the owner. */
  readonly bits: number;
  /** Infinity for a test that tells something in no time. */
  readonly bitsPerMinute: number;
}

export interface Ranked extends Gain {
  /**
   * Mean minutes to an ending where this test is done first and what follows is done in the best order: that order takes between
   * `atLeast` and `atMost`, which are one number where it was found.
   */
  readonly total: { readonly atLeast: number; readonly atMost: number };
}

/**
 * The tests that are worth doing first, by what they tell per minute, the most first. That looks one step ahead and may be far from
 * the best. Of tests that tell the same only that of the fewest minutes is there.
 */
export function gains(problem: Problem): Gain[] {
  const core = coreOf(problem);
  return placesByGain(core).map(({ gain }) => gain);
}

/** The same tests in the same order, and for each what `gains` does not look at: the minutes of all that follows. */
export function rank(problem: Problem, { effort = 3e5, cancelled = () => false }: Options = {}): Ranked[] {
  const core = coreOf(problem);
  const root = start(core);
  const exact = new Exact(core, cancelled);
  const lookAhead = new LookAhead(core, exact, cancelled);
  const ranked = placesByGain(core);

  const totalOf = (place: number): Ranked['total'] => {
    let { minutes: atLeast, minutes: atMost } = core.tests[place]!;
    let left = effort / ranked.length;
    for (const branch of split(core, root, place)) {
      if (!branch) continue;
      const good = lookAhead.follow(branch).minutes;
      const known = exact.improve(branch, good, left);
      left -= known.spent;
      atMost += known.reached ? known.atLeast : good;
      atLeast += known.reached || isLess(known.atLeast, good) ? known.atLeast : good;
    }
    return { atLeast, atMost };
  };
  return ranked.map(({ place, gain }) => ({ ...gain, total: totalOf(place) }));
}

function placesByGain(core: Core): { place: number; gain: Gain }[] {
  const root = start(core);
  const tells = teller(core, root);
  const rated = worthDoing(core, root).map(place => {
    const { index, minutes } = core.tests[place]!;
    const bits = tells(place).owner;
    return { place, gain: { test: index, bits, bitsPerMinute: perMinute(bits, minutes) } };
  });
  return rated.sort((a, b) => b.gain.bitsPerMinute - a.gain.bitsPerMinute || a.place - b.place);
}
