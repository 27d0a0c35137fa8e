import { tidy } from '../base/quantity/decimal.ts';
import { type Dimension, dimensionFacts } from '../base/quantity/dimension.ts';
import type { Limit } from '../base/quantity/limit.ts';
import type { Meter } from '../model/meter.ts';
import type { NumberReading } from './electrical.ts';
import { errorAt, rangeFor, resolutionAt } from './meter-display.ts';

/**
 * The range of all readings, made wider at each end by the margin and by what the meter itself may be off there, and then out to
 * the next step of its display, so that no good machine fails by the last digit. Ohms stop at zero; ends beyond the highest range
 * of an ohmmeter let `OL` pass as well. The leads of an ohmmeter are in its readings already. Without a meter (scan data) there is
 * nothing that is off but the last of four digits.
 */
export function limitAround(
  readings: readonly Pick<NumberReading, 'low' | 'high'>[],
  marginRatio: number,
  dimension: Dimension,
  meter: Meter | undefined,
): Limit {
  const end = (value: number, side: -1 | 1): number => {
    const range = meter && rangeFor(dimension, meter);
    const wider = value + side * (marginRatio * Math.abs(value) + (range ? errorAt(value, range) : 0));
    const step = range ? resolutionAt(wider, range) : 10 ** (Math.floor(Math.log10(Math.abs(wider) || 1)) - 3);
    // What is on a step already but for floating-point residue stays there.
    const steps = tidy(wider / step);
    return tidy((side < 0 ? Math.floor(steps) : Math.ceil(steps)) * step) || 0;
  };
  const floor = dimensionFacts[dimension].floor ?? Number.NEGATIVE_INFINITY;
  const low = Math.max(floor, end(Math.min(...readings.map(r => r.low)), -1));
  const high = end(Math.max(...readings.map(r => r.high)), 1);
  const isOver = dimension === 'resistance' && meter !== undefined && high > meter.resistance.overLimitOhms;
  return {
    low,
    high: isOver ? Number.POSITIVE_INFINITY : high,
    lowOpen: false,
    highOpen: false,
    overLimit: isOver,
    dimension,
  };
}
