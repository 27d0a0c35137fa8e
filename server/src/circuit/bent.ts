import type { Ranged } from '../base/ranged.ts';
import type { NodeId } from './network.ts';

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
