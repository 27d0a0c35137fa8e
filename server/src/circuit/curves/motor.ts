import type { Ranged } from '../../base/ranged.ts';
import { keptShare, type SplitCurve } from './lamp.ts';
import { besideSeries, bothWays, polylineSegments } from './polyline.ts';

/** The part of its running current at which a motor begins to turn (common practice, no source). */
const startingShare = 0.5;

/**
 * A direct-current motor that turns as fast as its voltage lets it: the resistance of its winding until it begins to turn, then the
 * voltage that it makes against the current on top, so that it takes `runningA` at `ratedV`. A motor that runs on by itself, and what
 * it feeds back then, is not modelled. All values above zero, and `runningA` below the stalled `ratedV / windingOhms`.
 */
export function motorCurve(ratedV: number, runningA: Ranged, windingOhms: Ranged): SplitCurve {
  const { nominal: amps } = runningA;
  const startA = startingShare * amps;
  const points = [
    { volts: 0, amps: 0 },
    { volts: startA * windingOhms.nominal, amps: startA },
    { volts: ratedV, amps },
  ];
  const keptOhms = windingOhms.low * keptShare;
  const nominal = windingOhms.nominal - keptOhms;
  const scale = { low: runningA.low / amps, nominal: 1, high: runningA.high / amps };
  const segments = polylineSegments(bothWays(besideSeries(points, nominal)), scale);
  return { seriesOhms: { low: windingOhms.low - keptOhms, nominal, high: windingOhms.high - keptOhms }, segments };
}
