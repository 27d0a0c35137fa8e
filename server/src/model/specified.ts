import type { Place } from '../base/place.ts';
import type { Limit } from '../base/quantity/limit.ts';

/** Which readings are right: limits that the author has written, or a word that leaves them to the circuit. */
export type Specified = TypedLimits | DerivedLimits;

export interface TypedLimits {
  readonly limit: Limit;
  readonly marginRatio?: undefined;
  /** The text of the limits. */
  readonly place: Place;
}

/** `from the circuit, with 2 % margin`. What it comes to is worked out by the analysis. */
export interface DerivedLimits {
  readonly limit?: undefined;
  /** A share of each end. */
  readonly marginRatio: number;
  readonly place: Place;
}
