import { resolutionAt } from '../../analysis/meter-display.ts';
import { type Dimension, dimensionFacts } from '../../base/quantity/dimension.ts';
import { meterAmount } from '../../base/quantity/meter-amount.ts';
import type { Range } from '../../model/procedure.ts';
import { everything, type Region } from '../../model/region.ts';

export { meterAmount as amount } from '../../base/quantity/meter-amount.ts';
export { type Region, regionOf } from '../../model/region.ts';

/** Nothing that the meter shows falls into it. */
export function isEmpty({ low, high, overLimit }: Region, floor = -Infinity): boolean {
  if (overLimit) return false;
  return low >= high || high <= floor;
}

/** The common part where it is more than a single value. */
export function overlap(a: Region, b: Region): Region | undefined {
  const low = Math.max(a.low, b.low);
  const high = Math.min(a.high, b.high);
  const overLimit = a.overLimit && b.overLimit;
  if (!(low < high) && !overLimit) return undefined;
  return { low, high, lowOpen: false, highOpen: false, overLimit };
}

/**
 * The readings that none of the regions takes, lowest first. A gap no wider than the last digit of the display there
 * is none: no reading can fall into it. Resistances begin at zero.
 */
export function gapsBetween(
  regions: readonly Region[],
  dimension: Dimension,
  meter: Range | undefined,
): readonly Region[] {
  const floor = lowestReading(dimension);
  const sorted = regions.filter(r => !isEmpty(r, floor)).sort((a, b) => a.low - b.low || a.high - b.high);
  const gaps: Region[] = [];
  let reach = floor;
  for (const { low, high } of sorted) {
    const narrowest = meter && Number.isFinite(reach) ? resolutionAt(reach, meter) * 1.000001 : 0;
    if (low > reach && !(low - reach <= narrowest))
      gaps.push({ ...everything, low: reach, high: low, overLimit: false });
    reach = Math.max(reach, high);
  }
  const takesOverLimit = sorted.some(r => r.overLimit);
  if (reach < Infinity || !takesOverLimit) gaps.push({ ...everything, low: reach });
  return gaps;
}

/** Ohms are never negative; volts and amperes may be, and anything may on scan data. */
export function lowestReading(dimension: Dimension): number {
  return dimensionFacts[dimension].floor ?? -Infinity;
}

/** `between 0.3 V and 1.55 V`, `above 2.05 V`, `below 1.55 V`. */
export function described({ low, high }: Region, dimension: Dimension): string {
  const value = (x: number) => meterAmount(x, dimension);
  if (low === Infinity) return 'of `OL`';
  if (low <= lowestReading(dimension)) return high === Infinity ? 'of any size' : `below ${value(high)}`;
  return high === Infinity ? `above ${value(low)}` : `between ${value(low)} and ${value(high)}`;
}
