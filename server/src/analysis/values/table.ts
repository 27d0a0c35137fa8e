import type { MeterReading } from '../electrical.ts';

/** What a technician should read on a machine without a fault, in one variant. */
export interface ValuesTable {
  readonly variant: string;
  /** Where the black lead stays while voltages are measured; absent where the variant has no ground and no supply. */
  readonly black?: string;
  /** What is set differently from rest while voltages are measured. */
  readonly operating: readonly StateOf[];
  /** Red lead from behind every plug, everything together. */
  readonly voltages: readonly ValueRow[];
  /** Between the terminals of a part whose plug is off, everything else at rest. */
  readonly resistances: readonly ValueRow[];
  readonly leftOut: LeftOut;
}

/** One pair of places for the leads, with what the meter shows there. */
export interface ValueRow {
  readonly red: string;
  readonly black: string;
  /** What the author calls the place of the red lead, or the part; the name itself where it has no title. */
  readonly title: string;
  /** Other points on the same line, at which the meter shows the same. */
  readonly also: readonly string[];
  /** The first is where the table starts from; then one for each state that the meter can tell from it. */
  readonly readings: readonly ValueReading[];
}

export interface ValueReading {
  /** In the first reading what holds there and matters, in the others what is set differently from it. */
  readonly states: readonly StateOf[];
  readonly reading: MeterReading;
}

/** A condition, or a part with states, in a state. */
export interface StateOf {
  readonly name: string;
  readonly state: string;
}

/** What a bounded table does not hold. */
export interface LeftOut {
  readonly points: readonly string[];
  readonly states: readonly StateOf[];
  /** Parts whose resistance is not computed. */
  readonly parts: readonly string[];
}
