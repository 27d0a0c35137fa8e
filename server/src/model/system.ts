import type { Dimension } from '../base/quantity/dimension.ts';
import type { WireSize } from '../base/quantity/wire-size.ts';
import type { Ranged } from '../base/ranged.ts';
import type { Allowance, Declared, Limited, ReadProblem, Ref, Test } from './common.ts';
import type { Part } from './parts.ts';
import type { Specified } from './specified.ts';
import type { MeterPlace, Setting } from './step.ts';

/** A system file with its included files joined, every name as written; nothing here is solved. */
export interface System {
  readonly uri: string;
  readonly id: Ref | undefined;
  readonly title?: string;
  readonly includes: readonly Ref[];
  /** At least one: `standard` where the file declares none. */
  readonly variants: readonly string[];
  readonly variantDecls: ReadonlyMap<string, Declared>;
  readonly conditions: ReadonlyMap<string, Condition>;
  readonly parts: ReadonlyMap<string, Part>;
  readonly connectors: ReadonlyMap<string, Connector>;
  readonly grounds: ReadonlyMap<string, Ground>;
  readonly splices: ReadonlyMap<string, Declared>;
  /** In file order; two wires may share an id when no variant has both. */
  readonly wires: readonly Wire[];
  readonly specifications: ReadonlyMap<string, Specification>;
  readonly faultNotes: readonly FaultNote[];
  readonly allow: readonly Allowance[];
  /** Of the wires. */
  readonly temperatureC: number;
  readonly problems: readonly ReadProblem[];
}

export interface Condition extends Declared {
  /** The first is the state at rest. Empty for a condition with a number. */
  readonly states: readonly Ref[];
  readonly number?: ConditionNumber;
  readonly needs: ReadonlyMap<string, Test>;
}

/** A condition that is a number between two ends, in base units. */
export interface ConditionNumber {
  readonly from: number;
  readonly to: number;
  readonly dimension: Dimension;
  /** With its unit, as the author wrote it, so that it is a state like any that a step sets. */
  readonly rest: string;
}

export interface Connector extends Declared, Limited {
  readonly cavities: readonly Ref[];
  readonly contactOhms?: Ranged;
  readonly accessMin?: number;
  readonly hazards: readonly Ref[];
}

export interface Ground extends Declared, Limited {
  readonly contactOhms?: Ranged;
}

export interface Wire extends Declared, Limited {
  /** Points, in the order written: from, each cavity passed, to. Absent ends were not readable. */
  readonly from?: Ref;
  readonly to?: Ref;
  readonly through: readonly Ref[];
  readonly size?: WireSize;
  readonly lengthM?: number;
  /** Of one or a few thick wires, or of many fine ones; the second where nothing is said. */
  readonly strands?: 'solid' | 'stranded';
  /** A resistance of the whole wire instead of size and length; with neither the wire is ideal. */
  readonly statedOhms?: Ranged;
  readonly colour?: string;
  readonly beside: readonly Ref[];
}

export interface Specification extends Declared, Limited {
  readonly meter: MeterPlace;
  readonly set: readonly Setting[];
  readonly disconnect: readonly Ref[];
  readonly remove: readonly Ref[];
  readonly rows: ReadonlyMap<string, SpecificationRow>;
}

export interface SpecificationRow extends Declared, Limited {
  readonly set: readonly Setting[];
  readonly limits?: Specified;
}

/** An edit of the derived fault list: `W41 short to ground: { excluded: … }`. */
export interface FaultNote extends Declared {
  /** Both against 1 for an ordinary fault. */
  readonly likelihood?: number;
  readonly severity?: number;
  /** The reasons why it cannot happen here, and why it is in the list although it does not follow from parts and wires. */
  readonly excluded?: string;
  readonly added?: string;
  /** How far a soft fault goes: the ohms of a bad joint or a short, a part of the good value, what a supply still gives. */
  readonly ohms?: number;
  readonly ratio?: number;
  readonly volts?: number;
}
