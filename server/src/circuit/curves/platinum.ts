/** Temperatures for which IEC 60751 states the curve. */
export const platinumFromC = -200;
export const platinumToC = 850;

/** Tolerance classes of IEC 60751:2022, the narrowest first. */
export const platinumClasses = ['AA', 'A', 'B', 'C'] as const;
export type PlatinumClass = (typeof platinumClasses)[number];

/**
 * The resistance in ohms of a platinum thermometer that has `zeroOhms` at 0 °C: `R₀ (1 + A t + B t² + C (t - 100 °C) t³)`, with
 * `C` only below 0 °C. Meant for -200 °C to 850 °C. Source: IEC 60751:2022, coefficients as quoted in several programs that cite it.
 */
export function platinumOhms(celsius: number, zeroOhms: number): number {
  const below = celsius < 0 ? c * (celsius - 100) * celsius ** 3 : 0;
  return zeroOhms * (1 + a * celsius + b * celsius ** 2 + below);
}

/**
 * How far the temperature of a thermometer of this class may be off, in kelvin: AA 0.1 + 0.0017 |t|, A 0.15 + 0.002 |t|,
 * B 0.3 + 0.005 |t|, C 0.6 + 0.01 |t|. Source: IEC 60751, as quoted in a service manual with all four classes (rotronic.com).
 */
export function platinumTolerance(celsius: number, of: PlatinumClass): number {
  const [fixed, share] = tolerances[of];
  return fixed + share * Math.abs(celsius);
}

const [a, b, c] = [3.9083e-3, -5.775e-7, -4.183e-12];

const tolerances: Record<PlatinumClass, readonly [number, number]> = {
  AA: [0.1, 0.0017],
  A: [0.15, 0.002],
  B: [0.3, 0.005],
  C: [0.6, 0.01],
};
