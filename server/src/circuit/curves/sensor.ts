import { exact, type Ranged } from '../../base/ranged.ts';
import type { Segment } from '../network.ts';
import { platinumClasses, platinumFromC, platinumOhms, platinumToC, platinumTolerance } from './platinum.ts';
import { polylineSegments } from './polyline.ts';
import { type CurvePoint, tableOver } from './table.ts';
import { betaOhms, steinhartHartOhms } from './thermistor.ts';
import {
  thermocoupleClasses,
  thermocoupleMillivolts,
  thermocoupleRange,
  thermocoupleTolerance,
} from './thermocouple.ts';
import { type ThermocoupleType, thermocoupleTypes } from './thermocouple-table.ts';

/** How a sensor's ohms or volts follow a number. */
export type Curve =
  | { readonly standard: string; readonly class?: string }
  | { readonly beta: { readonly atC: number; readonly ohms: Ranged; readonly betaK: Ranged } }
  | { readonly steinhart: { readonly a: number; readonly b: number; readonly c: number; readonly tolerance: number } }
  | { readonly points: readonly CurvePoint[] };

/**
 * Ohms, or volts of a thermocouple, at a number in base units; nothing beyond the curve. `endsC` is the temperature of the other ends
 * of a thermocouple. Curves of standards have the tolerance of their class, else of B (platinum) and 2 (thermocouples), as far as they go.
 */
export function sensorValue(curve: Curve, at: number, endsC: number): Ranged | undefined {
  if ('points' in curve) return tableOver(curve.points, exact(at));
  if ('beta' in curve) return overBeta(curve.beta, at);
  if ('steinhart' in curve) {
    const nominal = steinhartHartOhms(at, curve.steinhart);
    if (nominal === undefined) return undefined;
    const { tolerance } = curve.steinhart;
    return { low: nominal * (1 - tolerance), nominal, high: nominal * (1 + tolerance) };
  }
  const reach = reachOfCurve(curve);
  if (!reach || at < reach.from || at > reach.to) return undefined;
  const couple = coupleOf(curve.standard);
  if (couple) {
    if (endsC < reach.from || endsC > reach.to) return undefined;
    const off = thermocoupleTolerance(at, couple, thermocoupleClasses.find(one => String(one) === curve.class) ?? 2);
    const millivolts = (t: number) => thermocoupleMillivolts(Math.min(reach.to, Math.max(reach.from, t)), couple);
    return around(at, off, t => (millivolts(t) - millivolts(endsC)) / 1000);
  }
  const zeroOhms = Number(/Pt(\d+)$/.exec(curve.standard)?.[1]);
  return around(at, platinumTolerance(at, platinumClasses.find(one => one === curve.class) ?? 'B'), t =>
    platinumOhms(t, zeroOhms),
  );
}

/** Where the curve has values; nothing where it has no end. */
export function reachOfCurve(curve: Curve): { readonly from: number; readonly to: number } | undefined {
  if ('points' in curve) return { from: curve.points[0]!.at, to: curve.points.at(-1)!.at };
  if (!('standard' in curve)) return undefined;
  const couple = coupleOf(curve.standard);
  if (!couple) return { from: platinumFromC, to: platinumToC };
  const { fromC, toC } = thermocoupleRange(couple);
  return { from: fromC, to: toC };
}

function coupleOf(standard: string): ThermocoupleType | undefined {
  return thermocoupleTypes.find(type => standard === `type ${type}`);
}

/** A rising curve whose temperature may be off by so much either way. */
function around(at: number, off: number, value: (celsius: number) => number): Ranged {
  return { low: value(at - off), nominal: value(at), high: value(at + off) };
}

function overBeta({ atC, ohms, betaK }: Extract<Curve, { beta: object }>['beta'], at: number): Ranged {
  const [least, most] = at <= atC ? [betaK.low, betaK.high] : [betaK.high, betaK.low];
  return {
    low: betaOhms(at, atC, ohms.low, least),
    nominal: betaOhms(at, atC, ohms.nominal, betaK.nominal),
    high: betaOhms(at, atC, ohms.high, most),
  };
}

/** The current of a loop grows by this part of itself for each volt more, for a current cannot be without any slope. */
const growthPerVolt = 1e-6;

/**
 * A transmitter that sets the current in its loop, from its positive to its negative terminal: as much as it asks for from `leastV` on,
 * less below it, and nothing backwards. Both above zero.
 */
export function loopSegments(amps: number, leastV: number): readonly Segment[] {
  return polylineSegments([
    { volts: -1, amps: 0 },
    { volts: 0, amps: 0 },
    { volts: leastV, amps },
    { volts: leastV + 1, amps: amps * (1 + growthPerVolt) },
  ]);
}
