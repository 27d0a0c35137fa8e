import { exact, type Ranged } from '../../base/ranged.ts';
import type { Segment } from '../network.ts';

/** A place of a curve: the current in amperes that flows at a voltage in volts. */
export interface CurvePoint {
  readonly volts: number;
  readonly amps: number;
}

/**
 * The straight pieces through the points, the first and the last continued without end. Needs two points or more whose volts rise and
 * whose amps rise, or stay at zero: there the part is open.
 *
 * Currents may be any multiple in `scale` (above 0) of the written ones. All pieces share the multiple, and the voltages at which
 * they meet do not depend on it, so that the curve is without a gap whatever the multiple is.
 */
export function polylineSegments(points: readonly CurvePoint[], scale: Ranged = exact(1)): readonly Segment[] {
  const last = points.length - 2;
  return points.slice(0, -1).map((from, i): Segment => {
    const to = points[i + 1]!;
    const [first, final] = [i === 0, i === last];
    if (from.amps === to.amps) {
      return { kind: 'open', fromV: first ? undefined : exact(from.volts), toV: final ? undefined : exact(to.volts) };
    }
    const ohms = (to.volts - from.volts) / (to.amps - from.amps);
    return {
      kind: 'line',
      volts: exact(from.volts - ohms * from.amps),
      ohms: { low: ohms / scale.high, nominal: ohms / scale.nominal, high: ohms / scale.low },
      fromV: first ? undefined : ohms * from.amps,
      toV: final ? undefined : ohms * to.amps,
    };
  });
}

/** The same curve for either direction of the current, from the points of one: `(0, 0)` first, then rising. */
export function bothWays(points: readonly CurvePoint[]): readonly CurvePoint[] {
  const mirrored = points.slice(1).map(({ volts, amps }) => ({ volts: -volts, amps: -amps }));
  return [...mirrored.reverse(), ...points.slice(1)];
}

/** What is left of a curve when a resistance in series with it stands beside it as an element of its own. */
export function besideSeries(points: readonly CurvePoint[], ohms: number): readonly CurvePoint[] {
  return points.map(({ volts, amps }) => ({ volts: volts - ohms * amps, amps }));
}
