import type { Finding } from '../base/finding.ts';
import type { Place, Ref } from '../base/place.ts';
import type { Ranged } from '../base/ranged.ts';
import type { Entry, Node } from '../syntax/tree.ts';

/** The one variant of a file that declares none. */
export const STANDARD = 'standard';

/** Something the author gave a name. */
export interface Declared {
  readonly id: string;
  /** The token of the name. */
  readonly place: Place;
  /** The whole entry, name included. */
  readonly entry: Entry;
  readonly title?: string;
}

/** Something that exists in some variants only. */
export interface Limited {
  /** Absent: in every variant. */
  readonly only?: readonly Ref[];
}

/** `{ key: run, seat: [occupied] }`: the name and the states of which one must hold. */
export interface TestPart {
  readonly name: Ref;
  readonly states: readonly Ref[];
}

/** A test of conditions: one of the alternatives must hold, and in it every part. An empty alternative always holds. */
export type Test = readonly (readonly TestPart[])[];

/** A value with its tolerance, possibly different under different conditions. SI units. */
export interface Value {
  readonly cases: readonly ValueCase[];
}

export interface ValueCase {
  readonly when?: Test;
  readonly is: Ranged;
  readonly place: Place;
}

/** A problem found while a file is read, before any rule runs. */
export type ReadProblem = Finding;

/** `allow:` of a file: a rule silenced with its reason. */
export interface Allowance {
  readonly rule: Ref;
  /** Names of steps, parts, wires…; absent: the whole file. */
  readonly within?: readonly Ref[];
  readonly because?: string;
}

export function existsIn(thing: Limited, variant: string): boolean {
  return thing.only === undefined || thing.only.some(v => v.text === variant);
}

export type { Entry, Node, Place, Ref };
