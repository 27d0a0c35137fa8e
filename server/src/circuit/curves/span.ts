import type { Ranged } from '../../base/ranged.ts';

/** A straight line: `low` at `from`, `high` at `to`. A falling one has `low` above `high`. */
export interface Span {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What a linear sensor gives over a range of what it follows; `error` is how far it may be off either way, as a share of the span.
 * Nothing beyond the ends, or where `from` and `to` are one.
 */
export function spanOver({ from, to, low, high }: Span, at: Ranged, error = 0): Ranged | undefined {
  if (!(from < to) || at.low < from || at.high > to) return undefined;
  const value = (x: number) => low + ((high - low) * (x - from)) / (to - from);
  const off = error * Math.abs(high - low);
  const ends = [value(at.low), value(at.high)];
  return { low: Math.min(...ends) - off, nominal: value(at.nominal), high: Math.max(...ends) + off };
}

/** How much of its span a linear sensor shows: 0 at the low end, 1 at the high one; 12 mA of 4 to 20 mA is a half. */
export function shareOfSpan(value: number, low: number, high: number): number {
  return (value - low) / (high - low);
}
