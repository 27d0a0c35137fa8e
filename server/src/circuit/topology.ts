import { isOrdered } from '../base/ranged.ts';
import { BlockTree } from '../graph/block-tree.ts';
import { UnionFind } from '../graph/union-find.ts';
import { type Element, endsOf, isIdealConnection, type Network, type NodeId, rangeOf } from './network.ts';
import { sourceForest } from './source-forest.ts';

/** What keeps a network, or a part of it, from having one solution. Found on the graph, before any arithmetic. */
export type TopologyProblem =
  /** Ideal voltage sources in a ring, two in parallel among them; `elements` in order around it as far as known. */
  | { kind: 'source-loop'; elements: string[] }
  /** Both ends of an ideal voltage source are one node. */
  | { kind: 'source-shorted'; element: string }
  /** The element is written from a node to the same node. */
  | { kind: 'self-loop'; element: string }
  | { kind: 'non-positive-resistance'; element: string }
  /** An end is not a finite number, or the ends are out of order. */
  | { kind: 'unusable-value'; element: string }
  /** The current of an ideal current source has no way back. */
  | { kind: 'current-source-open'; element: string }
  /** A clamp asks for an element that the network does not have. */
  | { kind: 'unknown-element'; element: string }
  /** A meter without burden joins two points that ideal sources hold apart. */
  | { kind: 'meter-across-source'; elements: string[] }
  /** A meter without burden joins two points that are one node already, so its share of the current is unknown. */
  | { kind: 'meter-shorted'; elements: [] };

/** Every problem of the network, wherever it lies; elements in the order of the network. */
export function checkTopology(network: Network): TopologyProblem[] {
  const { of: nodeOf, count } = mergedNodes(network);
  const problems: TopologyProblem[] = [];
  const usable: Element[] = [];
  for (const element of network.elements) {
    const own = elementProblem(element, nodeOf);
    if (own) problems.push(own);
    else usable.push(element);
  }
  const sources = usable.filter(element => element.kind === 'voltage');
  const forest = sourceForest(
    count,
    sources.map(source => nodeOf[source.plus]!),
    sources.map(source => nodeOf[source.minus]!),
  );
  for (const loop of forest.loops) {
    problems.push({ kind: 'source-loop', elements: loop.map(index => sources[index]!.id) });
  }
  const parts = conductingParts(usable, nodeOf, count);
  for (const element of usable) {
    if (element.kind === 'current' && parts.find(nodeOf[element.from]!) !== parts.find(nodeOf[element.to]!)) {
      problems.push({ kind: 'current-source-open', element: element.id });
    }
  }
  return problems;
}

/**
 * Whether a supply drives a path between the leads, so that an ohmmeter there would stand on a live circuit. Joins count
 * as paths: a closed contact with current through it is live although no voltage drops across it. A source as faint as a
 * thermocouple without a difference of temperature does not count.
 */
export function isLive(network: Network, red: NodeId, black: NodeId): boolean {
  if (red === black) return false;
  const { elements } = network;
  const edges = wholeTree(network).between(red, black) ?? [];
  return edges.some(edge => {
    const element = elements[edge];
    return element !== undefined && isDriving(element) && !isFaint(element);
  });
}

/** Elements, then joins. */
function wholeTree(network: Network): BlockTree {
  const before = trees.get(network);
  if (before) return before;
  const ends = [...network.elements.map(endsOf), ...network.joins];
  const from = ends.map(([a]) => a);
  const fresh = new BlockTree(
    network.nodeCount,
    from,
    ends.map(([, b]) => b),
  );
  trees.set(network, fresh);
  return fresh;
}

const trees = new WeakMap<Network, BlockTree>();

/**
 * Volts that an ohmmeter hardly notices: over the 1 mA of its lowest range 0.2 Ω, no more than its leads have. A thermocouple whose ends are
 * equally warm stays below, ± 2.5 K of the most sensitive type are 0.15 mV; a warmer one does make a reading wrong.
 */
const faintV = 0.0002;

function isFaint(element: Element): boolean {
  if (element.kind !== 'voltage') return false;
  const { low, high } = rangeOf(element);
  return Math.max(Math.abs(low), Math.abs(high)) < faintV;
}

export function isDriving(element: Element): boolean {
  if (element.kind === 'resistance') return false;
  const { low, high } = rangeOf(element);
  return low !== 0 || high !== 0;
}

/** The nodes after joins and ideal connections are merged; `isNothing` may take more for a connection. */
export function mergedNodes(
  network: Network,
  isNothing: (element: Element) => boolean = isIdealConnection,
): { of: Int32Array; count: number } {
  if (network.joins.length === 0 && !network.elements.some(isNothing)) {
    const of = new Int32Array(network.nodeCount);
    for (let node = 0; node < of.length; node++) of[node] = node;
    return { of, count: network.nodeCount };
  }
  const nodes = new UnionFind(network.nodeCount);
  for (const [a, b] of network.joins) nodes.union(a, b);
  for (const element of network.elements) if (isNothing(element)) nodes.union(...endsOf(element));
  return nodes.classes();
}

export function hasUsableValue(element: Element): boolean {
  const range = rangeOf(element);
  return isOrdered(range) && !(element.kind === 'resistance' && range.low < 0);
}

/** What is wrong with one element by itself, its ends taken after merging. */
export function elementProblem(element: Element, nodeOf: Int32Array): TopologyProblem | undefined {
  if (!isOrdered(rangeOf(element))) return { kind: 'unusable-value', element: element.id };
  if (!hasUsableValue(element)) return { kind: 'non-positive-resistance', element: element.id };
  const [a, b] = endsOf(element);
  if (element.kind === 'voltage' && nodeOf[a] === nodeOf[b]) return { kind: 'source-shorted', element: element.id };
  if (a === b) return { kind: 'self-loop', element: element.id };
  return undefined;
}

/** Merged nodes that resistances and voltage sources connect. */
export function conductingParts(elements: readonly Element[], nodeOf: Int32Array, count: number): UnionFind {
  const parts = new UnionFind(count);
  for (const element of elements) {
    if (element.kind === 'current') continue;
    const [a, b] = endsOf(element);
    parts.union(nodeOf[a]!, nodeOf[b]!);
  }
  return parts;
}
