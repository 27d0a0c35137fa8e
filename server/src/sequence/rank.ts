import type { Options } from './best-tree.ts';
import { coreOf } from './core.ts';
import { Exact, isLess } from './exact.ts';
import { teller } from './information.ts';
import { LookAhead, perMinute } from './look-ahead.ts';
import type { Problem } from './problem.ts';
import { split, start, worthDoing } from './state.ts';

export interface Ranked {
  /** Its place in the problem. */
  readonly test: number;
  /** What it is expected to tell about the owner. */
  readonly bits: number;
  /** Infinity for a test that tells something in no time. */
  readonly bitsPerMinute: number;
  /**
   * Mean minutes to an ending where this test is done first and what follows is done in the best order: that order takes between
   * `atLeast` and `atMost`, which are one number where it was found.
   */
  readonly total: { readonly atLeast: number; readonly atMost: number };
}

/**
 * The tests that are worth doing first, by what they tell per minute, the most first. That looks one step ahead and may be far from
 * the best: `total` tells. Of tests that tell the same only that of the fewest minutes is there.
 */
export function rank(problem: Problem, { effort = 3e5, cancelled = () => false }: Options = {}): Ranked[] {
  const core = coreOf(problem);
  const root = start(core);
  const exact = new Exact(core, cancelled);
  const lookAhead = new LookAhead(core, exact, cancelled);
  const tells = teller(core, root);
  const tests = worthDoing(core, root);

  const totalOf = (place: number): Ranked['total'] => {
    let { minutes: atLeast, minutes: atMost } = core.tests[place]!;
    let left = effort / tests.length;
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
  const ranked = tests.map(place => {
    const { index, minutes } = core.tests[place]!;
    const bits = tells(place).owner;
    return { test: index, bits, bitsPerMinute: perMinute(bits, minutes), total: totalOf(place) };
  });
  return ranked.sort((a, b) => b.bitsPerMinute - a.bitsPerMinute || a.test - b.test);
}
