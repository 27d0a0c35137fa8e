import { BoundedMap } from '../base/bounded-map.ts';
import { exact } from '../base/ranged.ts';
import { LEAST_KEPT, solveSmall } from '../numeric/small-solve.ts';
import { LinearNetwork, type Moved, type Step } from './linear-network.ts';
import { type Network, type NodeId, rangeOf, withRange } from './network.ts';
import { type Solution, solve } from './solve.ts';
import type { TopologyProblem } from './topology.ts';

/** How an operating point differs from the one that was prepared. */
export interface Changes {
  /** By element id: ohms of a resistance, volts or amperes of a source; `Infinity` opens the element. */
  values?: ReadonlyMap<string, number>;
  /** Resistances put between two nodes, such as a bridge or a meter; ids are new. */
  added?: readonly Added[];
}

export interface Added {
  id: string;
  a: NodeId;
  b: NodeId;
  /** 0 makes one node of the two. */
  ohms: number;
}

export interface OperatingPoint {
  /** How it was found: from what was prepared, or by a new solve. */
  way: 'updated' | 'solved anew';
  /** Volts by node, each against the reference of its own island, as in `Solution`. */
  voltages: Float64Array;
  island: Int32Array;
  /** As in `Solution`; of an updated point as a part of what the busiest element carries, never above 1e-12. */
  residual: number;
  /** Amperes in the direction told in `Solution`; nothing for an ideal connection, what is open and an unknown id. */
  currentOf: (id: string) => number | undefined;
}

type Outcome = { value: OperatingPoint; problems: [] } | { value: undefined; problems: TopologyProblem[] };

const MOST_RESIDUAL = 1e-12;
/** What an update is for is few changes; with many, their rounding adds up. */
const MOST_CHANGES = 12;

/**
 * Operating points of one network under ever other changes. The network is solved once, at its nominal values; after that a change
 * `j` of the conductance between `a_j` and `b_j` by `d_j` acts as a current `c_j` that flows there in addition, so that
 *
 *     v' = v - sum over j of c_j z_j,     c_j = d_j (v'(a_j) - v'(b_j)),     z_j = v where only 1 A flows in at a_j, out at b_j
 *
 * (Sherman, Morrison, Woodbury). The `c_j` are the solution of as many equations as there are changes; `z_j` is kept, and taken from the
 * factored network itself rather than from entries of its inverse, whose difference loses all digits at a milliohm far from the
 * reference. Sources add what they do per unit. The network is solved anew where a change makes or parts nodes or islands, where digits
 * cancel, and where Kirchhoff's current law is missed by more than 1e-12.
 */
export class OperatingPoints {
  private readonly network: Network;
  private readonly base: Solution;
  private readonly linear: LinearNetwork;
  private readonly responses: BoundedMap<number, Float64Array>;

  private constructor(network: Network, base: Solution) {
    this.network = network;
    this.base = base;
    this.linear = new LinearNetwork(network);
    this.responses = new BoundedMap(2_000);
  }

  /** The network at its nominal values, or what keeps it from having an operating point. */
  static prepare(
    network: Network,
  ): { value: OperatingPoints; problems: [] } | { value: undefined; problems: TopologyProblem[] } {
    const nominal = {
      ...network,
      elements: network.elements.map(element => withRange(element, exact(rangeOf(element).nominal))),
    };
    const { value, problems } = solve(nominal);
    return value ? { value: new OperatingPoints(nominal, value), problems: [] } : { value, problems };
  }

  /**
   * The network under the changes. An array of as many numbers as there are nodes may be given for the voltages of an updated point, for
   * where many points are looked at one after the other: it then holds those of the last one.
   */
  at(changes: Changes, into?: Float64Array): Outcome {
    const updated = this.update(changes, into ?? new Float64Array(this.network.nodeCount));
    return updated ? { value: updated, problems: [] } : this.anew(changes);
  }

  private update({ values, added }: Changes, voltages: Float64Array): OperatingPoint | undefined {
    const { linear, base } = this;
    const steps: Step[] = [];
    const moved: Moved[] = [];
    if (values) {
      for (const [id, value] of values) {
        const j = linear.resistanceAt.get(id);
        if (j !== undefined) {
          if (!(value > 0)) return undefined;
          steps.push({ a: linear.a[j]!, b: linear.b[j]!, siemens: 1 / value - linear.siemens[j]! });
          continue;
        }
        const source = linear.sourceAt.get(id);
        if (source === undefined || !Number.isFinite(value)) return undefined;
        moved.push({ source, by: value - linear.sources[source]!.value });
      }
    }
    if (added) {
      for (const { a, b, ohms } of added) {
        if (!(ohms > 0) || base.island[a] !== base.island[b]) return undefined;
        steps.push({ a, b, siemens: 1 / ohms });
      }
    }
    if (steps.length + moved.length > MOST_CHANGES) return undefined;

    voltages.set(base.voltages);
    for (const { source, by } of moved) subtract(voltages, -by, this.responseToSource(source));
    if (!this.carry(steps, voltages)) return undefined;
    const residual = linear.residual(voltages, steps, moved);
    if (!(residual <= MOST_RESIDUAL)) return undefined;
    const currentOf = (id: string) => {
      const extra = added?.find(one => one.id === id);
      if (extra) return (voltages[extra.a]! - voltages[extra.b]!) / extra.ohms;
      const value = values?.get(id);
      if (value === Number.POSITIVE_INFINITY) return undefined;
      return linear.currentOf(id, voltages, steps, moved, value);
    };
    return { way: 'updated', voltages, island: base.island, residual, currentOf };
  }

  /** Takes what the changed conductances carry off the voltages; false where too many digits would be lost. */
  private carry(steps: readonly Step[], voltages: Float64Array): boolean {
    if (steps.length === 0) return true;
    const responses = steps.map(({ a, b }) => this.response(a, b));
    if (steps.length === 1) {
      const { a, b, siemens } = steps[0]!;
      const z = responses[0]!;
      const share = siemens * (z[a]! - z[b]!);
      const kept = 1 + share;
      if (!(Math.abs(kept) >= LEAST_KEPT * (1 + Math.abs(share)))) return false;
      subtract(voltages, (siemens * (voltages[a]! - voltages[b]!)) / kept, z);
      return true;
    }
    const scale = new Float64Array(steps.length);
    const matrix = steps.map(({ a, b, siemens }, i) => {
      const row = Float64Array.from(responses, z => siemens * (z[a]! - z[b]!));
      scale[i] = row.reduce((sum, entry) => sum + Math.abs(entry), 1);
      row[i]! += 1;
      return row;
    });
    const free = Float64Array.from(steps, ({ a, b, siemens }) => siemens * (voltages[a]! - voltages[b]!));
    const amps = solveSmall(matrix, free, scale);
    amps?.forEach((current, j) => {
      subtract(voltages, current, responses[j]!);
    });
    return amps !== undefined;
  }

  private response(a: NodeId, b: NodeId): Float64Array {
    return this.responses.remember(a * this.network.nodeCount + b, () => this.linear.responseBetween(a, b));
  }

  private responseToSource(source: number): Float64Array {
    return this.responses.remember(-1 - source, () => this.linear.responseToSource(source));
  }

  private anew({ values, added = [] }: Changes): Outcome {
    const elements = this.network.elements.flatMap(element => {
      const value = values?.get(element.id);
      if (value === undefined) return [element];
      return value === Number.POSITIVE_INFINITY ? [] : [withRange(element, exact(value))];
    });
    const more = added
      .filter(({ a, b, ohms }) => a !== b && ohms !== Number.POSITIVE_INFINITY)
      .map(({ id, a, b, ohms }) => ({ kind: 'resistance' as const, id, a, b, ohms: exact(ohms) }));
    const { value, problems } = solve({ ...this.network, elements: [...elements, ...more] });
    if (!value) return { value, problems };
    const { voltages, island, residual, currents } = value;
    return {
      value: { way: 'solved anew', voltages, island, residual, currentOf: id => currents.get(id) },
      problems: [],
    };
  }
}

function subtract(from: Float64Array, times: number, what: Float64Array): void {
  for (let at = 0; at < from.length; at++) from[at]! -= times * what[at]!;
}
