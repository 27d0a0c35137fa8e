import type { Ranged } from '../base/ranged.ts';

/** Dense, `0 .. nodeCount-1`; what a node stands for is the caller's business. */
export type NodeId = number;

export interface Resistance {
  kind: 'resistance';
  id: string;
  a: NodeId;
  b: NodeId;
  /** `low` may be 0; exactly 0 is an ideal connection. Both ends finite. */
  ohms: Ranged;
  /**
   * Resistances with the same word here have one tolerance: all are at the same place of their ranges, `low + t (high - low)` with
   * one `t`. Absent: a tolerance of its own.
   */
  tied?: string;
}

/** An ideal source: `v(plus) - v(minus) = volts`, whatever current it takes. */
export interface VoltageSource {
  kind: 'voltage';
  id: string;
  plus: NodeId;
  minus: NodeId;
  volts: Ranged;
}

/** An ideal source whose current flows inside the element from `from` to `to`. */
export interface CurrentSource {
  kind: 'current';
  id: string;
  from: NodeId;
  to: NodeId;
  amps: Ranged;
}

export type Element = Resistance | VoltageSource | CurrentSource;

/** A linear DC network. Element ids are unique. */
export interface Network {
  nodeCount: number;
  elements: readonly Element[];
  /** Ideal connections: their nodes are merged, they never become tiny resistances. */
  joins: readonly (readonly [NodeId, NodeId])[];
  /** Parts that are straight only piece by piece; linear arithmetic sees a network in which each stands for one of its pieces. */
  bends?: readonly Bent[];
}

/**
 * A two-terminal part whose current rises with its voltage along straight pieces: a diode, a lamp from cold to hot, a table.
 * Exactly one segment holds at a time; the voltage is that of `a` above `b`, and current flows inside from `a` to `b`.
 */
export interface Bent {
  readonly id: string;
  readonly a: NodeId;
  readonly b: NodeId;
  /** In the order of rising voltage; neighbours meet. */
  readonly segments: readonly Segment[];
  /** The current that it sets at nominal values, where it is known by that and not by the ohms of its pieces. Above zero. */
  readonly amps?: number;
}

export type Segment = OpenSegment | LineSegment;

/** No current; holds while the voltage is between the two. Absent: no end on that side. */
export interface OpenSegment {
  readonly kind: 'open';
  readonly fromV?: Ranged;
  readonly toV?: Ranged;
}

/**
 * A source in series with a resistance, `v = volts + ohms i`; holds while the drop across the resistance alone, `v - volts`, is
 * between `fromV` and `toV`. Absent: no end on that side.
 */
export interface LineSegment {
  readonly kind: 'line';
  readonly volts: Ranged;
  /** Above zero. */
  readonly ohms: Ranged;
  readonly fromV?: number;
  readonly toV?: number;
}

/** The two ends of an element, in the direction in which its current counts as positive inside it. */
export function endsOf(element: Element): readonly [NodeId, NodeId] {
  switch (element.kind) {
    case 'resistance':
      return [element.a, element.b];
    case 'voltage':
      return [element.minus, element.plus];
    case 'current':
      return [element.from, element.to];
  }
}

export function rangeOf(element: Element): Ranged {
  switch (element.kind) {
    case 'resistance':
      return element.ohms;
    case 'voltage':
      return element.volts;
    case 'current':
      return element.amps;
  }
}

/** The same element with another value, in its own unit. */
export function withRange(element: Element, range: Ranged): Element {
  switch (element.kind) {
    case 'resistance':
      return { ...element, ohms: range };
    case 'voltage':
      return { ...element, volts: range };
    case 'current':
      return { ...element, amps: range };
  }
}

/** A resistance of exactly nothing conducts like a join. */
export function isIdealConnection(element: Element): boolean {
  return element.kind === 'resistance' && element.ohms.low === 0 && element.ohms.high === 0;
}

export function withElements(network: Network, more: readonly Element[]): Network {
  return more.length === 0 ? network : { ...network, elements: [...network.elements, ...more] };
}

/** An ideal voltage source that is dead leaves its short, a current source nothing. */
export function withDeadSources(network: Network): Network {
  const shorts = network.elements.filter(element => element.kind === 'voltage');
  return {
    ...network,
    elements: network.elements.filter(element => element.kind === 'resistance'),
    joins: [...network.joins, ...shorts.map(({ plus, minus }) => [plus, minus] as const)],
  };
}
