import type { Place } from '../../base/place.ts';
import type { Change } from './change.ts';

/** One thing that can be wrong with a machine of one variant. */
export interface Fault {
  /** `W41 short to ground`; stable for as long as the things that it names keep their names. */
  readonly id: string;
  /** The part, wire, connector, ground, splice or terminal that is at fault. */
  readonly owner: string;
  /** What is named in a repair that removes it, the owner first: a bad terminal goes with the wire that ends there. */
  readonly mendedBy: readonly string[];
  /** What is wrong, without where: `short to ground`. */
  readonly kind: string;
  /** The whole in words, as a technician would say it. */
  readonly title: string;
  /** Where in the owner, for people; absent where the owner says it all. */
  readonly where?: string;
  /** Weight against 1 for an ordinary fault, with where it is from. */
  readonly likelihood: number;
  readonly likelihoodSource: string;
  /** How bad it is, against 1 for an ordinary fault; only the file can say so. */
  readonly severity: number;
  /** How far a soft fault goes. */
  readonly extent?: Extent;
  /** The reason why it cannot happen here, as the file says. */
  readonly excluded?: string;
  /** The reason why it is in the list although it is not derived. */
  readonly added?: string;
  /** What is electrically different; nothing for a fault that only eyes and hands find. */
  readonly changes: readonly Change[];
  /** The owner's name in the file, or the entry of an added fault. */
  readonly place: Place;
}

/** The one value that says how bad a soft fault is. */
export interface Extent {
  readonly dimension: 'resistance' | 'ratio' | 'voltage';
  /** Ohms, volts, or a part of the good value: -0.5 is half of it less. */
  readonly value: number;
  readonly source: string;
}

/** What the derivation of a family says; the rest is filled in for all alike. */
export interface Derived
  extends Pick<
    Fault,
    'id' | 'owner' | 'mendedBy' | 'kind' | 'title' | 'where' | 'likelihood' | 'likelihoodSource' | 'extent' | 'place'
  > {
  /** A supply that is too low may be told what it gives instead of how much less that is. */
  readonly givesVolts?: boolean;
  /** From the extent in force, which the file may have set. */
  readonly changes: (extent: Extent | undefined) => readonly Change[];
}
