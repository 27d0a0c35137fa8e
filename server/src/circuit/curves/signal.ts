import { exact, type Ranged } from '../../base/ranged.ts';
import type { SensorSignal } from '../../base/sensor-curve.ts';
import { tableOver } from './table.ts';

/**
 * The signal at a number `at` of a condition that goes from `from` to `to`, all in base units: straight over the condition, which it does
 * not leave, or by its table, and nothing beyond that. Either way it may be off by its accuracy, a part of its whole span.
 */
export function signalAt(
  { span, accuracy }: SensorSignal,
  at: number,
  { from, to }: { readonly from: number; readonly to: number },
): Ranged | undefined {
  if ('points' in span) {
    const values = span.points.map(({ is }) => is.nominal);
    const is = tableOver(span.points, exact(at));
    return is && widened(is, accuracy * (Math.max(...values) - Math.min(...values)));
  }
  if (!(to > from)) return undefined;
  const share = Math.min(1, Math.max(0, (at - from) / (to - from)));
  return widened(exact(span.low + share * (span.high - span.low)), accuracy * (span.high - span.low));
}

function widened({ low, nominal, high }: Ranged, off: number): Ranged {
  return { low: low - off, nominal, high: high + off };
}
