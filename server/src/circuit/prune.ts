import { BoundedMap } from '../base/bounded-map.ts';
import { BlockTree } from '../graph/block-tree.ts';
import type { Measurement } from './meter.ts';
import { type Element, endsOf, isIdealConnection, type Network, type NodeId, rangeOf } from './network.ts';
import { mergedNodes } from './topology.ts';

export interface Measured {
  readonly network: Network;
  readonly measurement: Measurement;
}

/** A measurement in as much of its network as can matter to it. */
export interface Pruned {
  /** Equal for equal measurements in equal networks, in whatever version of a file they are met. */
  readonly key: string;
  /** Made when it is asked for: mostly the key is enough. */
  readonly of: () => Measured;
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
    if (!small || small.a === small.b) return undefined;
    return { key: `${measurement.element} ${small.key}`, of: () => ({ network: small.network(), measurement }) };
  }
  const small = blocks.between(measurement.red, measurement.black);
  if (!small) return undefined;
  const inside = { ...measurement, red: small.a, black: small.b };
  return {
    key: `${JSON.stringify(inside)} ${small.key}`,
    of: () => ({ network: small.network(), measurement: inside }),
  };
}

interface Part {
  readonly key: string;
  readonly network: () => Network;
  readonly a: NodeId;
  readonly b: NodeId;
}

interface Blocks {
  between(a: NodeId, b: NodeId): Part | undefined;
}

/** What an element is apart from its place, as a number: elements of equal content have equal numbers. */
function contentOf(element: Element): number {
  const before = contents.get(element);
  if (before !== undefined) return before;
  const { low, nominal, high } = rangeOf(element);
  const tied = (element.kind === 'resistance' && element.tied) || '';
  const text = `${element.kind} ${low} ${nominal} ${high} ${element.id} ${tied}`;
  const number = numbers.remember(text, () => nextNumber++);
  contents.set(element, number);
  return number;
}

const contents = new WeakMap<Element, number>();
const numbers = new BoundedMap<string, number>(20_000);
let nextNumber = 0;

const known = new WeakMap<Network, Blocks>();

function blocksOf(network: Network): Blocks {
  const before = known.get(network);
  if (before) return before;
  const { of: nodeOf, count } = mergedNodes(network);
  const { elements } = network;
  const from = Int32Array.from(elements, element => nodeOf[endsOf(element)[0]]!);
  const to = Int32Array.from(elements, element => nodeOf[endsOf(element)[1]]!);
  const tree = new BlockTree(count, from, to);
  const numberOf = new Int32Array(count).fill(-1);
  const fresh: Blocks = {
    between(a, b) {
      const edges = tree.between(nodeOf[a]!, nodeOf[b]!);
      if (!edges) return undefined;
      // Nodes are numbered as they are met, so that the same part has the same numbers in every network.
      let nodeCount = 0;
      const met: number[] = [];
      const numbered = (node: number) => {
        if (numberOf[node] === -1) {
          numberOf[node] = nodeCount++;
          met.push(node);
        }
        return numberOf[node]!;
      };
      let key = '';
      const places = Int32Array.from({ length: 2 * edges.length });
      edges.forEach((edge, i) => {
        places[2 * i] = numbered(from[edge]!);
        places[2 * i + 1] = numbered(to[edge]!);
        key += `${contentOf(elements[edge]!)} ${places[2 * i]} ${places[2 * i + 1]},`;
      });
      const leads = { a: numbered(nodeOf[a]!), b: numbered(nodeOf[b]!) };
      for (const node of met) numberOf[node] = -1;
      const made = () => edges.map((edge, i) => placed(elements[edge]!, places[2 * i]!, places[2 * i + 1]!));
      return { ...leads, key, network: () => ({ nodeCount, elements: made(), joins: [] }) };
    },
  };
  known.set(network, fresh);
  return fresh;
}

/** The element between other nodes, in the order of `endsOf`. */
function placed(element: Element, from: NodeId, to: NodeId): Element {
  switch (element.kind) {
    case 'resistance':
      return { ...element, a: from, b: to };
    case 'voltage':
      return { ...element, minus: from, plus: to };
    case 'current':
      return { ...element, from, to };
  }
}
