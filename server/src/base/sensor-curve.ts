import type { Dimension } from './quantity/dimension.ts';
import type { Ranged } from './ranged.ts';

/** How the ohms of a sensor, or the volts of a thermocouple, follow a number; all in base units. */
export type SensorCurve =
  /** By name, with the tolerance class where one is stated: `IEC 60751 Pt100`, `A`. */
  | { readonly standard: string; readonly class?: string }
  | { readonly beta: { readonly atC: number; readonly ohms: Ranged; readonly betaK: Ranged } }
  | { readonly steinhart: { readonly a: number; readonly b: number; readonly c: number; readonly tolerance: number } }
  | SensorTable;

/** Two points or more by rising number, which is all of one dimension. */
export interface SensorTable {
  readonly points: readonly SensorPoint[];
  readonly dimension: Dimension;
}

export interface SensorPoint {
  readonly at: number;
  readonly is: Ranged;
}

/** What a sensor says about a number: a share of its supply, 0 to 1, or amperes. */
export interface SensorSignal {
  /** At the lowest and at the highest number of what it follows, straight between them; or point by point. */
  readonly span: { readonly low: number; readonly high: number } | SensorTable;
  /** How far the signal may be off either way, as a part of its span. */
  readonly accuracy: number;
}
