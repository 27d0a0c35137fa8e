import type { NumberReading } from '../analysis/electrical.ts';
import { displayed, errorAt, rangeFor } from '../analysis/meter-display.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import type { Limit } from '../base/quantity/limit.ts';
import type { Meter } from '../model/procedure.ts';
import { regionOf, takes } from '../model/region.ts';
import type { Branch } from '../model/step.ts';
import type { Outcome, Outcomes } from './outcome.ts';

/** A range of readings: the one that nothing passes, and the one that named machines reach. */
export type Shown = Pick<NumberReading, 'low' | 'nominal' | 'high' | 'attained' | 'lowAt' | 'highAt'>;

/** `OL`, or what a floating lead shows. */
export function shownAlways(value: number): Shown {
  return { low: value, nominal: value, high: value, attained: { low: value, high: value }, lowAt: [], highAt: [] };
}

/**
 * The branches that a range of readings touches, by every reading at which the branch can change. With a meter its error counts at
 * either end, for it may differ each time. `values` of the dimension are shown as that meter shows them.
 */
export function byNumber(
  branches: readonly Branch[],
  limit: Limit | undefined,
  shown: Shown,
  dimension: Dimension,
  meter: Meter,
  isMetered: boolean,
): Outcomes {
  const range = isMetered ? rangeFor(dimension, meter) : undefined;
  const error = (value: number) => (range && Number.isFinite(value) ? errorAt(value, range) : 0);
  const reached = wider(shown.attained, error);
  const enclosed = wider(shown, error);
  const regions = branches.flatMap(branch => {
    const region = regionOf(branch.match, limit);
    return region ? [{ branch, region }] : [];
  });
  const otherwise = branches.find(({ match }) => match.on === 'otherwise');
  const found = new Map<Branch | undefined, { value: number; isReached: boolean }>();
  const marks = regions.flatMap(({ region }) => [region.low, region.high]);
  for (const value of tried(enclosed, [shown.nominal, reached.low, reached.high, ...marks])) {
    const taking = regions.filter(({ region }) => takes(region, value)).map(({ branch }) => branch);
    const isReached = value >= reached.low && value <= reached.high;
    // The order in which branches are written decides nothing: of two that take a reading, either may be followed.
    for (const taken of taking.length > 0 ? taking : [otherwise]) {
      const before = found.get(taken);
      if (!before || (isReached && !before.isReached)) found.set(taken, { value, isReached });
    }
  }
  const text = (value: number) => displayed(value, dimension, meter).text;
  const outcomes = [...found].map(([branch, { value, isReached }]): Outcome => {
    const why = !isReached ? 'enclosed' : found.size === 1 ? 'certain' : 'tolerance';
    return { branch, text: text(value), why };
  });
  const span = { ...enclosed, dimension };
  return { kind: 'leads on', outcomes, ends: outcomes.length > 1 ? [shown.lowAt, shown.highAt] : [], range: span };
}

function wider({ low, high }: { low: number; high: number }, error: (value: number) => number) {
  return { low: low - error(low), high: high + error(high) };
}

/** The nominal value first, then the ends, every mark between them, and a value between each two. */
function tried({ low, high }: { low: number; high: number }, marks: readonly number[]): readonly number[] {
  const [nominal = low] = marks;
  const inside = [...new Set([low, high, ...marks.filter(mark => mark > low && mark < high)])].sort((a, b) => a - b);
  const between = inside.slice(1).map((mark, i) => (mark + inside[i]!) / 2);
  return [nominal, ...inside, ...between];
}
