import type { Bent, Element, NodeId } from '../../circuit/network.ts';
import type { ConditionNumber } from '../../model/system.ts';

/** What the elements of a part depend on besides the part itself. */
export interface Surroundings {
  readonly variant: string;
  readonly temperatureC: number;
  stateOf(name: string): readonly string[];
  /** Between which numbers a condition can be; undefined for one without a number. */
  numberOf(name: string): ConditionNumber | undefined;
  /** Whether a relay is pulled in, a module powered, an output on. */
  isOn(name: string): boolean;
  node(terminal: string): NodeId | undefined;
  fresh(): NodeId;
}

/** The elements of one part at its own nodes. Ids are the words a technician reads: `K3 coil`, `A1.14 pull-up`. */
export interface PartElements {
  readonly elements: Element[];
  readonly joins: [NodeId, NodeId][];
  /** Parts that are straight only piece by piece. */
  readonly bends: Bent[];
  /** What turns something of the part on and off. */
  readonly senses: Sense[];
  /** Terminals whose behaviour is not computed; the part has a say in what reaches them. */
  readonly unknown: readonly NodeId[];
}

/** What turns something on and off. */
export type Sense = VoltageSense | Follower;

/** Something that is on while a voltage is high enough: a relay by its coil, a module by its feed. */
export interface VoltageSense {
  /** What `isOn` is asked for. */
  readonly name: string;
  readonly red: NodeId;
  readonly black: NodeId;
  /** Volts at which it comes on, and below which it goes off again; the same where the second is absent. */
  readonly aboveV: number;
  readonly dropV?: number;
  /** The direction of the voltage makes no difference. */
  readonly eitherWay?: boolean;
}

/** Something that is on while current flows through a bent part: a transistor by its base. */
export interface Follower {
  /** What `isOn` is asked for. */
  readonly name: string;
  /** The bent part, which is open in its first segment and conducts in all others. */
  readonly bend: string;
}

export function noElements(): PartElements {
  return { elements: [], joins: [], bends: [], senses: [], unknown: [] };
}
