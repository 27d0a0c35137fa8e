import type { Ranged } from '../../base/ranged.ts';
import type { Segment } from '../network.ts';
import { besideSeries, bothWays, type CurvePoint, polylineSegments } from './polyline.ts';

/**
 * A part in two: a resistance with the tolerance of the cold part, and in series what warming up or turning adds to it. Each keeps
 * its own tolerance so, and the curve is without a gap at any combination of the two.
 */
export interface SplitCurve {
  readonly seriesOhms: Ranged;
  readonly segments: readonly Segment[];
}

/**
 * The part of the cold resistance that stays in the curve, whose every piece needs some: too little to be seen in any reading or in a
 * value that is named, and enough for the arithmetic.
 */
export const keptShare = 1e-4;

/**
 * The current of a filament lamp changes as this power of the voltage: 0.55, and its power as 1.6 (Wikipedia, "Lamp rerating"; 0.5 to
 * 0.6 by kind of lamp, from memory). Held to down to where the cold resistance gives less.
 */
const lampExponent = 0.55;

/**
 * The cold resistance by the hot one: a tenth to a fifteenth of it (kfz-tech.de, "one tenth" for vehicle lamps; a lamp of 100 W for
 * 120 V has 144 Ω lit and 9.5 Ω cold, quoted in physicsforums 885068).
 */
export function coldOhms(ratedV: number, powerW: Ranged): Ranged {
  const hot = ratedV ** 2;
  return { low: hot / powerW.high / 15, nominal: hot / powerW.nominal / 12, high: hot / powerW.low / 10 };
}

/**
 * Shares of the rated voltage at which the straight pieces meet. The last two lie beyond what a supply does to a lamp that is lit, so that
 * one piece covers all of it, and are lifted so that it passes through the rating; within 2 % of the law from half of the voltage up.
 */
const corners = [1 / 64, 1 / 16, 1 / 4, 1 / 2];
const lit = [0.85, 1.3] as const;

/**
 * A filament lamp that has warmed up to what it carries: its cold resistance for the smallest currents, `powerW` at `ratedV`. Inrush is
 * not modelled. All values above zero, and the cold resistance below `ratedV² / powerW`.
 */
export function lampCurve(ratedV: number, powerW: Ranged, cold: Ranged): SplitCurve {
  const ratedA = powerW.nominal / ratedV;
  const hotOhms = ratedV / ratedA;
  const knee = (cold.nominal / hotOhms) ** (1 / (1 - lampExponent));
  const points: CurvePoint[] = [{ volts: 0, amps: 0 }, at(knee)];
  for (const share of corners) if (share > 1.5 * knee) points.push(at(share));
  // A lamp that is nearly as cold as hot, and so no lamp, only has to be without a gap.
  points.push(...(lit[0] > 1.5 * knee ? litPoints() : [at(1), at(2)]));
  const keptOhms = cold.low * keptShare;
  const [low, nominal, high] = [cold.low - keptOhms, cold.nominal - keptOhms, cold.high - keptOhms];
  const scale = { low: powerW.low / powerW.nominal, nominal: 1, high: powerW.high / powerW.nominal };
  const segments = polylineSegments(bothWays(besideSeries(points, nominal)), scale);
  return { seriesOhms: { low, nominal, high }, segments };

  function litPoints(): readonly CurvePoint[] {
    const [from, to] = lit.map(share => share ** lampExponent);
    const chordAtRating = from! + ((1 - lit[0]) / (lit[1] - lit[0])) * (to! - from!);
    return lit.map(share => ({ volts: share * ratedV, amps: (share ** lampExponent / chordAtRating) * ratedA }));
  }

  function at(share: number): CurvePoint {
    return { volts: share * ratedV, amps: share ** lampExponent * ratedA };
  }
}
