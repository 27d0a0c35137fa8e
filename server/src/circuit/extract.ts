import { blockOf } from '../graph/blocks.ts';
import type { UnionFind } from '../graph/union-find.ts';
import { buildCore, type ReadGraph } from './build-core.ts';
import type { Core } from './core.ts';
import { type Element, endsOf, type Network } from './network.ts';
import { sourceForest } from './source-forest.ts';
import { conductingParts, elementProblem, isDriving, mergedNodes, type TopologyProblem } from './topology.ts';

/** Id of the elements that stand for the meter itself; never shown, for their values have no tolerance. */
export const METER = '';

/** What is read: between two nodes, or the current that a voltage source (by its index) delivers. */
export type Probe =
  | { kind: 'voltage' | 'resistance'; red: number; black: number }
  | { kind: 'current'; source: number };

export type Extracted =
  | { state: 'core'; core: Core }
  | { state: 'floating'; lead: 'red' | 'black' | 'both' }
  | { state: 'unsolvable'; problems: TopologyProblem[] };

/**
 * Cuts out of the network what the reading can depend on, and nothing else:
 *
 * 1. ideal connections are merged;
 * 2. of the graph with the reading as one more edge, only the 2-connected block of that edge is kept, for no current of
 *    the rest ever passes the leads - so a fault elsewhere cannot spoil the reading either;
 * 3. resistances there that no source can drive a current through become connections, for no voltage drops across them;
 * 4. ideal voltage sources are merged, and once more the block of the reading is taken (build-core.ts).
 *
 * `isBlock` says that step 2 has been done: all of the network is in that block.
 */
export function extract(network: Network, probe: Probe, isBlock = false): Extracted {
  const { of: nodeOf, count } = mergedNodes(network);
  const { elements } = network;
  const from: number[] = [];
  const to: number[] = [];
  for (const element of elements) {
    const [start, stop] = endsOf(element);
    from.push(nodeOf[start]!);
    to.push(nodeOf[stop]!);
  }
  const isCurrent = probe.kind === 'current';
  const readingEdge = isCurrent ? probe.source : elements.length;
  if (!isCurrent) {
    from.push(nodeOf[probe.red]!);
    to.push(nodeOf[probe.black]!);
  }

  const block = isBlock
    ? elements.map((_, edge) => edge)
    : blockOf(count, from, to, readingEdge).filter(edge => edge < elements.length);
  const withoutMeter = elements.filter(element => element.id !== METER || element.kind === 'voltage');
  const parts = conductingParts(withoutMeter, nodeOf, count);
  const problems = problemsIn(block, elements, nodeOf, parts);
  if (problems.length > 0) return { state: 'unsolvable', problems };
  if (!isCurrent && parts.find(from[readingEdge]!) !== parts.find(to[readingEdge]!)) {
    return { state: 'floating', lead: floatingLead(elements, nodeOf, parts, probe.red, probe.black) };
  }
  const idle = probe.kind === 'voltage' ? idleResistances(count, elements, from, to, block) : [];
  if (idle.length > 0) {
    return extract({ ...network, joins: [...network.joins, ...idle.map(edge => endsOf(elements[edge]!))] }, probe);
  }

  const tied = block.filter(edge => elements[edge]!.kind === 'voltage' && edge !== readingEdge);
  const forest = sourceForest(
    count,
    tied.map(edge => to[edge]!),
    tied.map(edge => from[edge]!),
  );
  const graph = { elements, from, to, readingEdge, isCurrent, block, tied, forest };
  const loops = loopsIn(graph);
  return loops.length > 0 ? { state: 'unsolvable', problems: loops } : { state: 'core', core: buildCore(graph) };
}

/** Rings of ideal voltage sources, the one whose current is read among them. */
function loopsIn({ elements, from, to, readingEdge, isCurrent, tied, forest }: ReadGraph): TopologyProblem[] {
  const idsOf = (sources: readonly number[]) => sources.map(source => elements[tied[source]!]!.id);
  const loops = forest.loops.map((loop): TopologyProblem => ({ kind: 'source-loop', elements: idsOf(loop) }));
  if (loops.length > 0 || !isCurrent) return loops;
  const [a, b] = [from[readingEdge]!, to[readingEdge]!];
  if (forest.groupOf[a] !== forest.groupOf[b]) return [];
  const [offsetA, offsetB] = [forest.offsetOf(a), forest.offsetOf(b)];
  const ring = idsOf(
    [...offsetA.keys(), ...offsetB.keys()].filter(source => offsetA.has(source) !== offsetB.has(source)),
  );
  const own = elements[readingEdge]!.id;
  if (own === METER) return [{ kind: 'meter-across-source', elements: ring }];
  return [{ kind: 'source-loop', elements: [...ring, own] }];
}

/** Resistances of the block that share no block with a driving source once the leads, which carry nothing, are off. */
function idleResistances(
  nodeCount: number,
  elements: readonly Element[],
  from: readonly number[],
  to: readonly number[],
  block: readonly number[],
): number[] {
  const driven = new Uint8Array(block.length);
  const starts = Int32Array.from(block);
  const stops = Int32Array.from(block);
  for (let at = 0; at < block.length; at++) {
    starts[at] = from[block[at]!]!;
    stops[at] = to[block[at]!]!;
  }
  for (let at = 0; at < block.length; at++) {
    if (driven[at] || !isDriving(elements[block[at]!]!)) continue;
    for (const reached of blockOf(nodeCount, starts, stops, at)) driven[reached] = 1;
  }
  return block.filter((edge, at) => elements[edge]!.kind === 'resistance' && !driven[at]);
}

function problemsIn(
  block: readonly number[],
  elements: readonly Element[],
  nodeOf: Int32Array,
  parts: UnionFind,
): TopologyProblem[] {
  const problems: TopologyProblem[] = [];
  for (const edge of block) {
    const element = elements[edge]!;
    const own = elementProblem(element, nodeOf);
    if (own) {
      problems.push(
        own.kind === 'source-shorted' && own.element === METER ? { kind: 'meter-shorted', elements: [] } : own,
      );
    } else if (element.kind === 'current' && parts.find(nodeOf[element.from]!) !== parts.find(nodeOf[element.to]!)) {
      problems.push({ kind: 'current-source-open', element: element.id });
    }
  }
  return problems;
}

/** A part of the network without any source is what floats; where both or neither have one, both leads do. */
function floatingLead(
  elements: readonly Element[],
  nodeOf: Int32Array,
  parts: UnionFind,
  red: number,
  black: number,
): 'red' | 'black' | 'both' {
  const supplied = (lead: number) =>
    elements.some(
      element => isDriving(element) && parts.find(nodeOf[endsOf(element)[0]]!) === parts.find(nodeOf[lead]!),
    );
  const [redSupplied, blackSupplied] = [supplied(red), supplied(black)];
  if (redSupplied === blackSupplied) return 'both';
  return redSupplied ? 'black' : 'red';
}
