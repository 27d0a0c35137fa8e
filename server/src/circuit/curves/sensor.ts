import { exact, type Ranged } from '../../base/ranged.ts';
import type { SensorCurve } from '../../base/sensor-curve.ts';
import { platinumClasses, platinumFromC, platinumOhms, platinumToC, platinumTolerance } from './platinum.ts';
import { tableOver } from './table.ts';
import { betaOhms, steinhartHartOhms } from './thermistor.ts';
import {
  thermocoupleClasses,
  thermocoupleMillivolts,
  thermocoupleRange,
  thermocoupleTolerance,
} from './thermocouple.ts';
import { type ThermocoupleType, thermocoupleTypes } from './thermocouple-table.ts';

/**
 * Ohms, or volts of a thermocouple, at a number in base units; nothing beyond the curve. `endsC` is the temperature of the other ends
 * of a thermocouple. Curves of standards have the tolerance of their class, else of B (platinum) and 2 (thermocouples), as far as they go.
 */
export function sensorValue(curve: SensorCurve, at: number, endsC: number): Ranged | undefined {
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

/** Whether a sensor can have that many ohms: coefficients that belong to no sensor lead to none or to more than can be counted. */
export function isResistance({ low, high }: Ranged): boolean {
  return low > 0 && high < Number.POSITIVE_INFINITY;
}

/** Where the curve has values; nothing where it has no end. */
export function reachOfCurve(curve: SensorCurve): { readonly from: number; readonly to: number } | undefined {
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

function overBeta({ atC, ohms, betaK }: Extract<SensorCurve, { beta: object }>['beta'], at: number): Ranged {
  const [least, most] = at <= atC ? [betaK.low, betaK.high] : [betaK.high, betaK.low];
  return {
    low: betaOhms(at, atC, ohms.low, least),
    nominal: betaOhms(at, atC, ohms.nominal, betaK.nominal),
    high: betaOhms(at, atC, ohms.high, most),
  };
}
