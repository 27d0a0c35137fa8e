import { BlockTree } from '../graph/block-tree.ts';
import type { Measurement } from './meter.ts';
import { type Element, endsOf, isIdealConnection, type Network, type NodeId } from './network.ts';
import { mergedNodes } from './topology.ts';

/** A measurement in as much of its network as can matter to it. */
export interface Pruned {
  readonly network: Network;
  readonly measurement: Measurement;
}

/**
 * Leaves out what lies on no way between the leads, or in no ring with the clamped element: no current that passes them ever
 * passes there. Many readings are taken in one network, so its blocks are found once. Nothing where all of it is needed to tell.
 */
export function prune(network: Network, measurement: Measurement): Pruned | undefined {
  const blocks = blocksOf(network);
  if (measurement.measure === 'clamp') {
    const element = network.elements.find(({ id }) => id === measurement.element);
    if (!element || element.kind === 'current' || isIdealConnection(element)) return undefined;
    const small = blocks.between(...endsOf(element));
    // An element whose ends are one node is in no ring, and needs words of its own.
    return small && small.a !== small.b ? { network: small.network, measurement } : undefined;
  }
  const small = blocks.between(measurement.red, measurement.black);
  return small && { network: small.network, measurement: { ...measurement, red: small.a, black: small.b } };
}

interface Part {
  readonly network: Network;
  readonly a: NodeId;
  readonly b: NodeId;
}

interface Blocks {
  between(a: NodeId, b: NodeId): Part | undefined;
}

const known = new WeakMap<Network, Blocks>();

function blocksOf(network: Network): Blocks {
  const before = known.get(network);
  if (before) return before;
  const { of: nodeOf, count } = mergedNodes(network);
  const { elements } = network;
  const from = Int32Array.from(elements, element => nodeOf[endsOf(element)[0]]!);
  const to = Int32Array.from(elements, element => nodeOf[endsOf(element)[1]]!);
  const tree = new BlockTree(count, from, to);
  const fresh: Blocks = {
    between(a, b) {
      const edges = tree.between(nodeOf[a]!, nodeOf[b]!);
      if (!edges) return undefined;
      const ends = edges.flatMap(edge => [from[edge]!, to[edge]!]);
      const used = [...new Set([...ends, nodeOf[a]!, nodeOf[b]!])].sort((x, y) => x - y);
      const numberOf = new Map(used.map((node, i) => [node, i]));
      const at = (node: NodeId) => numberOf.get(nodeOf[node]!)!;
      const kept = edges.map(edge => between(elements[edge]!, at));
      return { network: { nodeCount: used.length, elements: kept, joins: [] }, a: at(a), b: at(b) };
    },
  };
  known.set(network, fresh);
  return fresh;
}

function between(element: Element, at: (node: NodeId) => NodeId): Element {
  switch (element.kind) {
    case 'resistance':
      return { ...element, a: at(element.a), b: at(element.b) };
    case 'voltage':
      return { ...element, plus: at(element.plus), minus: at(element.minus) };
    case 'current':
      return { ...element, from: at(element.from), to: at(element.to) };
  }
}
