import { tidy } from '../base/quantity/decimal.ts';
import { type Dimension, dimensionFacts } from '../base/quantity/dimension.ts';
import type { Limit } from '../base/quantity/limit.ts';
import type { Meter, Range } from '../model/meter.ts';
import type { NumberReading } from './electrical.ts';
import { errorAt, rangeFor, resolutionAt } from './meter-display.ts';

/**
 * The range of all readings, wider at each end by the margin, a share of it, and by what the meter itself may be off in the range,
 * and then out to the next step of its display: whatever a good machine makes the meter show lies inside. Ohms stop at zero; an end
 * beyond the highest range of an ohmmeter lets `OL` pass as well. The leads of an ohmmeter are in its readings already. Without a
 * meter (scan data) nothing is off but the last of four digits.
 */
export function limitAround(
  readings: readonly Pick<NumberReading, 'low' | 'high'>[],
  marginRatio: number,
  dimension: Dimension,
  meter: Meter | undefined,
): Limit {
  const lowest = Math.min(...readings.map(r => r.low));
  // Ohms without end are far beyond every meter, and can still be calculated with.
  const highest = Math.min(Number.MAX_VALUE, Math.max(...readings.map(r => r.high)));
  const range = meter && rangeFor(dimension, meter);
  const [from, to] = range ? shown(lowest, highest, range) : [lowest, highest];
  const low = outward(from - marginRatio * Math.abs(lowest), range, Math.floor);
  const high = outward(to + marginRatio * Math.abs(highest), range, Math.ceil);
  const isOver = dimension === 'resistance' && meter !== undefined && high > meter.resistance.overLimitOhms;
  return {
    low: Math.max(dimensionFacts[dimension].floor ?? Number.NEGATIVE_INFINITY, low),
    high: isOver ? Number.POSITIVE_INFINITY : high,
    lowOpen: false,
    highOpen: false,
    overLimit: isOver,
    dimension,
  };
}

/** All that a meter may show of true values between the two. It is off by more where a higher range begins, so these count too. */
function shown(lowest: number, highest: number, range: Range): [number, number] {
  const begins = range.ranges.flatMap(end => [-end, end]).filter(value => lowest < value && value < highest);
  const values = [lowest, ...begins, highest];
  return [
    Math.min(...values.map(value => value - errorAt(value, range))),
    Math.max(...values.map(value => value + errorAt(value, range))),
  ];
}

/** To the next step of the display; what is on a step already but for floating-point residue stays there. */
function outward(value: number, range: Range | undefined, round: (x: number) => number): number {
  const step = range ? resolutionAt(value, range) : 10 ** (Math.floor(Math.log10(Math.abs(value) || 1)) - 3);
  return tidy(round(tidy(value / step)) * step) || 0;
}
