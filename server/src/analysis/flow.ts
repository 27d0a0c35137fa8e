import type { Situation } from './situation.ts';

/** Which situations a technician can be in at each step of a procedure, on one system in one variant. */
export interface Flow {
  /** Distinct situations on arrival, before the step's own instructions; empty where no path leads there. */
  arriving(step: string): readonly Situation[];
  /** The same after the step's `set`, `disconnect`, `connect`, `remove`, `refit`. */
  during(step: string): readonly Situation[];
  /** Situations in which an ending is reached, before its own `connect` and `refit`. */
  atEnding(ending: string): readonly Situation[];
  /** True where so many situations reach a step that only the first ones are followed. */
  readonly truncated: boolean;
}
