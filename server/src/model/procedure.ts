import type { Allowance, Declared, Limited, Place, ReadProblem, Ref, Test } from './common.ts';
import type { Meter } from './meter.ts';
import type { Caution, Setting, Step } from './step.ts';

export interface Procedure {
  readonly uri: string;
  readonly id: Ref | undefined;
  readonly title?: string;
  readonly appliesTo: readonly Application[];
  readonly entries: readonly Start[];
  readonly tools: readonly Ref[];
  readonly meter: Meter;
  readonly cautions: readonly Caution[];
  /** `start: look`; absent where it is missing. */
  readonly start?: Ref;
  readonly steps: ReadonlyMap<string, Step>;
  readonly endings: ReadonlyMap<string, Ending>;
  /** Faults, parts or items that it leaves to others, with the reasons. */
  readonly leavesOut: readonly LeftOut[];
  readonly allow: readonly Allowance[];
  /** Tokens of the top-level keys, where findings about something missing point to. */
  readonly keys: ReadonlyMap<string, Place>;
  readonly problems: readonly ReadProblem[];
}

export interface Application {
  /** The file as written. */
  readonly file: Ref;
  /** `all`, or the variants named. */
  readonly variants: 'all' | readonly Ref[];
}

export interface LeftOut {
  readonly name: Ref;
  readonly because: string;
}

export interface Start {
  readonly symptom?: Ref;
  readonly code?: Ref;
  readonly start?: Ref;
  /** The situation, from rest, in which the symptom is seen or the code is set. */
  readonly set: readonly Setting[];
  /** What the machine then does. */
  readonly when?: Test;
  /** Absent: faults that stay and faults that come and go. */
  readonly nature?: Nature;
  /** Faults, parts or items that bring a technician here although the circuit does not tell. */
  readonly shows: readonly Ref[];
}

/** A fault that stays, or one that comes and goes. */
export type Nature = 'hard' | 'intermittent';

export type EndingKind = 'replace' | 'mend' | 'adjust' | 'no fault' | 'repaired' | 'continue in' | 'refer';

export interface EndingData {
  readonly kind: EndingKind | 'none';
  /** The token of the kind; the ending's name where there is none. */
  readonly kindPlace: Place;
  /** Parts, wires, connectors, items that a repair names, or those that a referral blames. */
  readonly items: readonly Ref[];
  readonly text?: string;
  /** `continue in`: the other procedure's file. */
  readonly file?: Ref;
  readonly confirm?: Ref;
  readonly set: readonly Setting[];
  readonly connect: readonly Ref[];
  readonly refit: readonly Ref[];
  readonly cautions: readonly Caution[];
}

export interface Ending extends Declared, Limited {
  readonly data: EndingData;
  readonly byVariant: ReadonlyMap<string, EndingData>;
}

export function endingIn(ending: Ending, variant: string): EndingData {
  return ending.byVariant.get(variant) ?? ending.data;
}

export function isRepair(kind: EndingData['kind']): boolean {
  return kind === 'replace' || kind === 'mend' || kind === 'adjust';
}

export type { Meter, Range } from './meter.ts';
