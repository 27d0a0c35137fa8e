import { tidy } from '../base/quantity/decimal.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import { meterAmount } from '../base/quantity/meter-amount.ts';
import type { Meter, Range } from '../model/procedure.ts';

/** What stands on a display for one true value. */
export interface Displayed {
  /** `12.34 V`, `OL`. */
  readonly text: string;
  /** The value on the display; infinite for `OL`. */
  readonly value: number;
  /** The step of the last digit in the range that the meter has chosen. */
  readonly resolution: number;
  /** How far the display may be from the truth, either way. */
  readonly error: number;
}

/** What a meter shows of a true value: rounded to the last digit of the range that it chooses. */
export function displayed(value: number, dimension: Dimension, meter: Meter): Displayed {
  const range = rangeFor(dimension, meter);
  if (!range) return { text: meterAmount(value, dimension), value, resolution: 0, error: 0 };
  const resolution = resolutionAt(value, range);
  const error = errorAt(value, range);
  const overLimit = dimension === 'resistance' ? meter.resistance.overLimitOhms : (range.ranges.at(-1) ?? Infinity);
  if (Math.abs(value) > overLimit) return { text: 'OL', value: Math.sign(value) * Infinity, resolution, error };
  const shown = tidy(Math.round(tidy(value / resolution)) * resolution) || 0;
  return { text: meterAmount(shown, dimension), value: shown, resolution, error };
}

/** The accuracy of a data sheet: a share of the reading, and steps of the last digit; never less than one step. */
export function errorAt(value: number, range: Range): number {
  const { ratio, counts } = range.accuracy;
  return ratio * Math.abs(value) + Math.max(1, counts) * resolutionAt(value, range);
}

/** A meter has as many steps in each of its ranges. */
export function resolutionAt(value: number, { resolution, ranges }: Range): number {
  const [lowest] = ranges;
  if (lowest === undefined) return resolution;
  return tidy((resolution * (ranges.find(upTo => Math.abs(value) < upTo) ?? ranges.at(-1)!)) / lowest);
}

/** Absent for what no meter of ours measures. */
export function rangeFor(dimension: Dimension | undefined, meter: Meter): Range | undefined {
  if (dimension === 'voltage') return meter.voltage;
  if (dimension === 'resistance') return meter.resistance;
  return dimension === 'current' ? meter.current : undefined;
}
