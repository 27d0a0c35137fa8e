import type { Bent, Element, NodeId } from '../../circuit/network.ts';

/** What the elements of a part depend on besides the part itself. */
export interface Surroundings {
  readonly variant: string;
  readonly temperatureC: number;
  stateOf(name: string): readonly string[];
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
  /** Terminals whose behaviour is not computed; the part has a say in what reaches them. */
  readonly unknown: readonly NodeId[];
}
