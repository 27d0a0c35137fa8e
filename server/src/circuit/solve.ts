import type { StarMesh } from '../numeric/star-mesh.ts';
import { assemble } from './assemble.ts';
import { type Element, endsOf, type Network, rangeOf } from './network.ts';
import { checkTopology, conductingParts, type TopologyProblem } from './topology.ts';

/** The operating point of a whole network at one choice of values. */
export interface Solution {
  /** Volts by node, each against the reference of its own island: compare only nodes of one island. */
  voltages: Float64Array;
  /** Number of the island that a node belongs to; resistances, voltage sources and joins tie nodes together. */
  island: Int32Array;
  /**
   * Amperes by element id: of a resistance from `a` to `b`, of a current source from `from` to `to`, of a voltage source
   * what it delivers out of `plus`. Ideal connections have none, for how they share a current is not defined.
   */
  currents: Map<string, number>;
  /**
   * What Kirchhoff's current law misses at the worst node, as a part of what meets at the busiest one, counted as
   * `g (|v(a)| + |v(b)|)` for a resistance: 0 is perfect, above 1e-9 deserves a warning.
   */
  residual: number;
  /** Condition of the conductance matrix in the infinity norm, exact since its inverse has no negative entry. */
  condition: number;
}

/** The operating point at the nominal values, or those in `at` by element id; or what keeps it from existing. */
export function solve(
  whole: Network,
  at: ReadonlyMap<string, number> = new Map(),
): { value: Solution; problems: [] } | { value: undefined; problems: TopologyProblem[] } {
  const network = withoutZeros(whole, at);
  const problems = checkTopology(network).filter(problem => problem.kind !== 'self-loop');
  if (problems.length > 0) return { value: undefined, problems };
  const chosen = (element: Element) => at.get(element.id) ?? rangeOf(element).nominal;
  const equations = assemble(network, chosen);
  const { nodeOf, count, resistances, currentSources, from, to, mesh } = equations;
  const { voltageSources: sources, siemens: conductance } = equations;
  const { groupOf, groupCount, offsetOf } = equations.forest;
  const offset = Float64Array.from({ length: count }, (_, node) => {
    let volts = 0;
    for (const [source, sign] of offsetOf(node)) volts += sign * chosen(sources[source]!);
    return volts;
  });

  const injected = new Float64Array(groupCount);
  for (const source of currentSources) {
    injected[groupOf[nodeOf[source.from]!]!]! -= chosen(source);
    injected[groupOf[nodeOf[source.to]!]!]! += chosen(source);
  }
  resistances.forEach(({ a, b }, j) => {
    const amps = conductance[j]! * (offset[nodeOf[a]!]! - offset[nodeOf[b]!]!);
    injected[from[j]!]! -= amps;
    injected[to[j]!]! += amps;
  });
  const potential = mesh.solve(injected);

  const currents = new Map<string, number>();
  const leaving = new Float64Array(count);
  const passing = new Float64Array(count);
  const carry = (id: string, a: number, b: number, amps: number, scale = Math.abs(amps)) => {
    currents.set(id, amps);
    leaving[a]! += amps;
    leaving[b]! -= amps;
    passing[a]! += scale;
    passing[b]! += scale;
  };
  const voltage = (node: number) => potential[groupOf[node]!]! + offset[node]!;
  resistances.forEach(({ id, a, b }, j) => {
    const volts = potential[from[j]!]! - potential[to[j]!]! + (offset[nodeOf[a]!]! - offset[nodeOf[b]!]!);
    const scale = conductance[j]! * (Math.abs(voltage(nodeOf[a]!)) + Math.abs(voltage(nodeOf[b]!)));
    carry(id, nodeOf[a]!, nodeOf[b]!, volts * conductance[j]!, scale);
  });
  for (const source of currentSources) carry(source.id, nodeOf[source.from]!, nodeOf[source.to]!, chosen(source));

  // What leaves the side of the tree that a source raises is what the source delivers.
  const delivered = new Float64Array(sources.length);
  for (let node = 0; node < count; node++) {
    for (const [source, sign] of offsetOf(node)) delivered[source]! += sign * leaving[node]!;
  }
  sources.forEach((source, k) => {
    carry(source.id, nodeOf[source.minus]!, nodeOf[source.plus]!, delivered[k]!);
  });

  const parts = conductingParts(network.elements, nodeOf, count).classes();
  return {
    value: {
      voltages: Float64Array.from({ length: network.nodeCount }, (_, node) => voltage(nodeOf[node]!)),
      island: Int32Array.from({ length: network.nodeCount }, (_, node) => parts.of[nodeOf[node]!]!),
      currents,
      residual: scaledResidual(leaving, passing),
      condition: condition(mesh, groupCount, from, to, conductance),
    },
    problems: [],
  };
}

/** A resistance that may be something but is nothing here is a connection like any other. */
function withoutZeros(network: Network, at: ReadonlyMap<string, number>): Network {
  const isZero = (element: Element) =>
    element.kind === 'resistance' && (at.get(element.id) ?? element.ohms.nominal) === 0 && element.ohms.high > 0;
  const zeros = network.elements.filter(isZero);
  if (zeros.length === 0) return network;
  return {
    ...network,
    elements: network.elements.filter(element => !isZero(element)),
    joins: [...network.joins, ...zeros.map(endsOf)],
  };
}

function scaledResidual(leaving: Float64Array, passing: Float64Array): number {
  const most = Math.max(0, ...passing);
  return most === 0 ? 0 : Math.max(0, ...leaving.map(Math.abs)) / most;
}

/** `|A| |A^-1|`: twice the largest sum of conductances at a node, times the largest potential for 1 A into every node. */
function condition(
  mesh: StarMesh,
  nodeCount: number,
  from: readonly number[],
  to: readonly number[],
  conductance: Float64Array,
): number {
  const total = new Float64Array(nodeCount);
  conductance.forEach((g, j) => {
    if (from[j] === to[j]) return;
    total[from[j]!]! += g;
    total[to[j]!]! += g;
  });
  const potential = mesh.solve(new Float64Array(nodeCount).fill(1));
  return Math.max(1, 2 * Math.max(0, ...total) * Math.max(0, ...potential));
}
