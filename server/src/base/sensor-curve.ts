import type { Ranged } from './ranged.ts';

/** How the ohms of a sensor, or the volts of a thermocouple, follow a number; all in base units. */
export type SensorCurve =
  /** By name, with the tolerance class where one is stated: `IEC 60751 Pt100`, `A`. */
  | { readonly standard: string; readonly class?: string }
  | { readonly beta: { readonly atC: number; readonly ohms: Ranged; readonly betaK: Ranged } }
  | { readonly steinhart: { readonly a: number; readonly b: number; readonly c: number; readonly tolerance: number } }
  /** By rising number. */
  | { readonly points: readonly SensorPoint[] };

export interface SensorPoint {
  readonly at: number;
  readonly is: Ranged;
}
