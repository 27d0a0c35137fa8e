import type { StarMesh } from '../numeric/star-mesh.ts';
import { assemble } from './assemble.ts';
import type { Network, NodeId, VoltageSource } from './network.ts';
import { rangeOf } from './network.ts';
import type { SourceForest } from './source-forest.ts';

/** A conductance added between two nodes, in siemens; negative where one is taken away. */
export interface Step {
  a: NodeId;
  b: NodeId;
  siemens: number;
}

/** A source whose value has changed by so many volts or amperes. */
export interface Moved {
  source: number;
  by: number;
}

interface Source {
  id: string;
  value: number;
  /** What leaves the element, and where it comes back in: for a current source its ends, for a voltage source none. */
  ends?: readonly [from: NodeId, to: NodeId];
}

/** A network without topology problems, at its nominal values, factored once. Works on all nodes; groups are only met inside. */
export class LinearNetwork {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly siemens: Float64Array;
  readonly resistanceAt = new Map<string, number>();
  readonly sourceAt = new Map<string, number>();
  readonly sources: Source[] = [];
  /** Group of nodes that ideal connections and voltage sources tie together, by node. */
  private readonly groupOf: Int32Array;
  private readonly nodeOf: Int32Array;
  private readonly forest: SourceForest;
  private readonly mesh: StarMesh;
  private readonly voltageSources: VoltageSource[];
  private readonly leaving: Float64Array;
  private readonly groupA: Int32Array;
  private readonly groupB: Int32Array;

  constructor(network: Network) {
    const { nodeOf, resistances, voltageSources, currentSources, forest, from, to, siemens, mesh } = assemble(
      network,
      element => rangeOf(element).nominal,
    );
    this.nodeOf = nodeOf;
    this.a = Int32Array.from(resistances, ({ a }) => a);
    this.b = Int32Array.from(resistances, ({ b }) => b);
    this.siemens = siemens;
    for (const [j, { id }] of resistances.entries()) this.resistanceAt.set(id, j);

    // Voltage sources stand first, so that a source has the same number here and in the forest.
    this.voltageSources = voltageSources;
    for (const element of [...voltageSources, ...currentSources]) {
      const { id } = element;
      this.sourceAt.set(id, this.sources.length);
      const value = rangeOf(element).nominal;
      this.sources.push(element.kind === 'current' ? { id, value, ends: [element.from, element.to] } : { id, value });
    }
    this.forest = forest;
    this.groupOf = nodeOf.map(node => forest.groupOf[node]!);
    this.groupA = Int32Array.from(from);
    this.groupB = Int32Array.from(to);
    this.mesh = mesh;
    this.leaving = new Float64Array(this.forest.groupCount);
  }

  /** Volts by node where all sources are dead and 1 A flows in at `a` and out at `b`. */
  responseBetween(a: NodeId, b: NodeId): Float64Array {
    const injected = new Float64Array(this.forest.groupCount);
    injected[this.groupOf[a]!]! += 1;
    injected[this.groupOf[b]!]! -= 1;
    return this.byNode(injected);
  }

  /** Volts by node where all sources but this one are dead, and it gives 1 V or 1 A. */
  responseToSource(source: number): Float64Array {
    const { ends } = this.sources[source]!;
    if (ends) return this.responseBetween(ends[1], ends[0]);
    const raised = Float64Array.from(this.nodeOf, node => this.forest.offsetOf(node).get(source) ?? 0);
    const injected = new Float64Array(this.forest.groupCount);
    this.siemens.forEach((siemens, j) => {
      const amps = siemens * (raised[this.a[j]!]! - raised[this.b[j]!]!);
      injected[this.groupOf[this.a[j]!]!]! -= amps;
      injected[this.groupOf[this.b[j]!]!]! += amps;
    });
    const response = this.byNode(injected);
    for (let node = 0; node < response.length; node++) response[node]! += raised[node]!;
    return response;
  }

  /**
   * What Kirchhoff's current law misses at the worst group of nodes, as a part of `g (|v(a)| + |v(b)|)` of the busiest element. This is
   * most of the work of an update, hence one plain loop.
   */
  residual(voltages: Float64Array, steps: readonly Step[], moved: readonly Moved[]): number {
    const { a, b, siemens, groupA, groupB, leaving, groupOf } = this;
    leaving.fill(0);
    let most = 0;
    for (let j = 0; j < siemens.length; j++) {
      const va = voltages[a[j]!]!;
      const vb = voltages[b[j]!]!;
      const g = siemens[j]!;
      const amps = g * (va - vb);
      leaving[groupA[j]!]! += amps;
      leaving[groupB[j]!]! -= amps;
      const passing = g * (Math.abs(va) + Math.abs(vb));
      if (passing > most) most = passing;
    }
    const carry = (from: NodeId, to: NodeId, amps: number) => {
      leaving[groupOf[from]!]! += amps;
      leaving[groupOf[to]!]! -= amps;
      most = Math.max(most, Math.abs(amps));
    };
    for (const step of steps) carry(step.a, step.b, step.siemens * (voltages[step.a]! - voltages[step.b]!));
    for (let source = this.voltageSources.length; source < this.sources.length; source++) {
      const [from, to] = this.sources[source]!.ends!;
      carry(from, to, this.valueOf(source, moved));
    }
    let worst = 0;
    for (let group = 0; group < leaving.length; group++) {
      const missed = Math.abs(leaving[group]!);
      if (!(missed <= worst)) worst = missed;
    }
    return most === 0 ? 0 : worst / most;
  }

  /** Amperes of one element, in the direction told in `Solution`. */
  currentOf(
    id: string,
    voltages: Float64Array,
    steps: readonly Step[],
    moved: readonly Moved[],
    changedOhms?: number,
  ): number | undefined {
    const j = this.resistanceAt.get(id);
    if (j !== undefined) {
      const volts = voltages[this.a[j]!]! - voltages[this.b[j]!]!;
      return changedOhms === undefined ? volts * this.siemens[j]! : volts / changedOhms;
    }
    const source = this.sourceAt.get(id);
    if (source === undefined) return undefined;
    return this.sources[source]!.ends ? this.valueOf(source, moved) : this.delivered(source, voltages, steps, moved);
  }

  /** What leaves the side of its group of nodes that a voltage source raises. */
  private delivered(source: number, voltages: Float64Array, steps: readonly Step[], moved: readonly Moved[]): number {
    const side = (node: NodeId) => this.forest.offsetOf(this.nodeOf[node]!).get(source) ?? 0;
    let amps = 0;
    for (let j = 0; j < this.siemens.length; j++) {
      const [a, b] = [this.a[j]!, this.b[j]!];
      amps += (side(a) - side(b)) * this.siemens[j]! * (voltages[a]! - voltages[b]!);
    }
    for (const { a, b, siemens } of steps) amps += (side(a) - side(b)) * siemens * (voltages[a]! - voltages[b]!);
    for (const [k, { ends }] of this.sources.entries()) {
      if (ends) amps += (side(ends[0]) - side(ends[1])) * this.valueOf(k, moved);
    }
    return amps;
  }

  private valueOf(source: number, moved: readonly Moved[]): number {
    const by = moved.find(one => one.source === source)?.by ?? 0;
    return this.sources[source]!.value + by;
  }

  private byNode(injected: Float64Array): Float64Array {
    const potential = this.mesh.solve(injected);
    return Float64Array.from(this.groupOf, group => potential[group]!);
  }
}
