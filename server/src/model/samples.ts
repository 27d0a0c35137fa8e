import type { Declared, Place, ReadProblem, Ref } from './common.ts';

/** Sample walks kept beside a procedure: per step a reading or an answer, and the ending that must be reached. */
export interface Samples {
  readonly uri: string;
  readonly of?: Ref;
  readonly walks: readonly SampleWalk[];
  readonly problems: readonly ReadProblem[];
}

export interface SampleWalk extends Declared {
  readonly variant?: Ref;
  readonly startsFrom?: Ref;
  /** Step name to the reading or answer, as written. */
  readonly readings: ReadonlyMap<string, { readonly step: Ref; readonly reading: Ref }>;
  readonly endsAt?: Ref;
  readonly keys: ReadonlyMap<string, Place>;
}
