import { type ReferenceFunction, referenceFunctions, type ThermocoupleType } from './thermocouple-table.ts';

/**
 * The voltage in mV of a thermocouple whose other ends are at 0 °C (reference functions of ITS-90). Meant for the temperatures of
 * `thermocoupleRange`. With the other ends at another temperature, its voltage is to be taken off.
 */
export function thermocoupleMillivolts(celsius: number, type: ThermocoupleType): number {
  const { stretches } = referenceFunctions[type];
  const { coefficients, bump } = stretches.find(s => celsius <= s.toC) ?? stretches.at(-1)!;
  const polynomial = coefficients.reduceRight((sum, coefficient) => sum * celsius + coefficient, 0);
  return bump ? polynomial + bump[0] * Math.exp(bump[1] * (celsius - bump[2]) ** 2) : polynomial;
}

/** Temperatures in °C for which the reference function is stated. */
export function thermocoupleRange(type: ThermocoupleType): { readonly fromC: number; readonly toC: number } {
  const { fromC, stretches }: ReferenceFunction = referenceFunctions[type];
  return { fromC, toC: stretches.at(-1)!.toC };
}

/** Tolerance classes of IEC 60584-1:2013. */
export const thermocoupleClasses = [1, 2, 3] as const;
export type ThermocoupleClass = (typeof thermocoupleClasses)[number];

/**
 * How far the temperature may be off, in kelvin: the larger of a fixed value and a share of |t|. Class 3 is meant for below 40 °C.
 * Source: IEC 60584-1:2013, as quoted on a maker's page of tolerances; types E, J, K and N alike, type T narrower.
 */
export function thermocoupleTolerance(celsius: number, type: ThermocoupleType, of: ThermocoupleClass): number {
  const [fixed, share] = tolerances[type === 'T' ? 'T' : 'others'][of];
  return Math.max(fixed, share * Math.abs(celsius));
}

const tolerances: Record<'T' | 'others', Record<ThermocoupleClass, readonly [number, number]>> = {
  T: { 1: [0.5, 0.004], 2: [1, 0.0075], 3: [1, 0.015] },
  others: { 1: [1.5, 0.004], 2: [2.5, 0.0075], 3: [2.5, 0.015] },
};
