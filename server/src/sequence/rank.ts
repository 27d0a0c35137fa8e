import type { Options } from './best-tree.ts';
import { Bound } from './bound.ts';
import { coreOf } from './core.ts';
import { Exact } from './exact.ts';
import { bits } from './information.ts';
import { LookAhead, perMinute } from './look-ahead.ts';
import type { Problem } from './problem.ts';
import { parts, split, start } from './state.ts';

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
export function rank(problem: Problem, { states = 20_000, cancelled = () => false }: Options = {}): Ranked[] {
  const core = coreOf(problem);
  const root = start(core);
  const bound = new Bound(core);
  const exact = new Exact(core, bound, cancelled);
  const lookAhead = new LookAhead(core, exact, cancelled);
  const total = (place: number, minutes: number): Ranked['total'] => {
    const branches = split(core, root, place).filter(branch => branch !== undefined);
    const best = branches.map(branch => exact.decide(branch, states)?.minutes);
    const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, minutes);
    const atLeast = sum(branches.map((branch, i) => best[i] ?? bound.of(branch)));
    const atMost = sum(branches.map((branch, i) => best[i] ?? lookAhead.followOneStep(branch).minutes));
    return { atLeast: Math.min(atLeast, atMost), atMost };
  };
  const ranked = core.tests.flatMap(({ index, minutes }, place) => {
    if (!parts(core, root, core.tests[place]!)) return [];
    const told = bits(core, root, core.tests[place]!).owner;
    return [{ test: index, bits: told, bitsPerMinute: perMinute(told, minutes), total: total(place, minutes) }];
  });
  return ranked.sort((a, b) => b.bitsPerMinute - a.bitsPerMinute || a.test - b.test);
}
