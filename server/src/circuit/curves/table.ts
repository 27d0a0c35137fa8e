import type { Ranged } from '../../base/ranged.ts';
import type { SensorPoint } from '../../base/sensor-curve.ts';

/**
 * What a table gives over a range, on straight lines between its points, which are in the order of rising `at`. The ends are the lowest
 * and the highest on the way, so that a table that turns around is still enclosed. Nothing beyond its ends or without points.
 */
export function tableOver(points: readonly SensorPoint[], at: Ranged): Ranged | undefined {
  const [low, nominal, high] = [tableAt(points, at.low), tableAt(points, at.nominal), tableAt(points, at.high)];
  if (!low || !nominal || !high) return undefined;
  const passed = points.filter(p => p.at > at.low && p.at < at.high).map(p => p.is);
  const all = [low, nominal, high, ...passed];
  return {
    low: Math.min(...all.map(is => is.low)),
    nominal: nominal.nominal,
    high: Math.max(...all.map(is => is.high)),
  };
}

function tableAt(points: readonly SensorPoint[], at: number): Ranged | undefined {
  const upper = points.findIndex(p => p.at >= at);
  const after = points[upper];
  if (!after) return undefined;
  if (after.at === at) return after.is;
  const before = points[upper - 1];
  if (!before) return undefined;
  const share = (at - before.at) / (after.at - before.at);
  const between = (end: keyof Ranged) => before.is[end] + share * (after.is[end] - before.is[end]);
  return { low: between('low'), nominal: between('nominal'), high: between('high') };
}
