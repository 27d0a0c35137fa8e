import { BoundedMap } from '../base/bounded-map.ts';
import type { Link } from '../graph/block-tree.ts';
import { graphOf, type NetworkGraph } from './graph.ts';
import type { Measurement } from './meter.ts';
import { type Element, endsOf, isIdealConnection, type Network, type NodeId, rangeOf } from './network.ts';

export interface Measured {
  readonly network: Network;
  readonly measurement: Measurement;
  /** Every element lies on a way between the leads, or in a ring with the clamped one. */
  readonly isBlock?: boolean;
}

/** A measurement in as much of its network as can matter to it. */
export interface Pruned {
  /** Equal for equal measurements in equal networks, in whatever version of a file they are met. */
  readonly key: string;
  /** How many elements there are in it. */
  readonly size: number;
  /** Made when it is asked for: mostly the key is enough. */
  readonly of: () => Measured;
}

/**
 * Leaves out what lies on no way between the leads, or in no ring with the clamped element: no current that passes them ever
 * passes there. Many readings are taken in one network, so its blocks are found once. Nothing where all of it is needed to tell.
 */
export function prune(network: Network, measurement: Measurement): Pruned | undefined {
  if (measurement.measure === 'clamp') {
    const element = network.elements.find(({ id }) => id === measurement.element);
    if (!element || element.kind === 'current' || isIdealConnection(element)) return undefined;
    const way = blocksOf(network).way(...endsOf(element));
    // An element whose ends are one node is in no ring, and needs words of its own.
    if (!way || way.links.length === 0) return undefined;
    return {
      key: `${measurement.element} ${way.key}`,
      size: way.size,
      of: () => ({ network: way.network().network, measurement, isBlock: true }),
    };
  }
  const { red, black, ...settings } = measurement;
  const way = blocksOf(network).way(red, black);
  if (!way) return undefined;
  return {
    key: `${keyOf(settings)} ${way.key}`,
    size: way.size,
    of: () => {
      const { network: small, a, b } = way.network();
      return { network: small, measurement: { ...measurement, red: a, black: b }, isBlock: a !== b };
    },
  };
}

type Settings = Measurement extends infer One ? (One extends Measurement ? Omit<One, 'red' | 'black'> : never) : never;

function keyOf(settings: Settings): string {
  return 'inputOhms' in settings ? `voltage ${settings.inputOhms}` : JSON.stringify(settings);
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

/** The blocks on the way between two nodes, and what tells them from others. */
interface Way {
  readonly links: readonly Link[];
  readonly key: string;
  readonly size: number;
  network(): { readonly network: Network; readonly a: NodeId; readonly b: NodeId };
}

/** A block by itself. Its nodes are numbered as they are met, so that equal blocks have equal numbers in every network. */
interface Block {
  /** Equal for equal blocks, whatever network they are met in. */
  readonly key: number;
  /** Merged nodes of the network, in the order of their numbers. */
  readonly nodes: readonly number[];
}

const known = new WeakMap<Network, Blocks>();

function blocksOf(network: Network): Blocks {
  const before = known.get(network);
  if (before) return before;
  const fresh = new Blocks(network);
  known.set(network, fresh);
  return fresh;
}

class Blocks {
  readonly #elements: readonly Element[];
  readonly #graph: NetworkGraph;
  readonly #known: (Block | undefined)[] = [];
  /** Used and cleared by each numbering of nodes. */
  readonly #numberOf: Int32Array;

  constructor(network: Network) {
    this.#elements = network.elements;
    this.#graph = graphOf(network);
    this.#numberOf = new Int32Array(this.#graph.count).fill(-1);
  }

  way(a: NodeId, b: NodeId): Way | undefined {
    const { blocks, nodeOf } = this.#graph;
    const [red, black] = [nodeOf[a]!, nodeOf[b]!];
    const links = blocks.chain(red, black);
    if (!links) return undefined;
    let key = '';
    let size = 0;
    for (const { block, enter, leave } of links) {
      size += blocks.edgesOf(block).length;
      const { key: own, nodes } = this.#block(block);
      key += `${own} ${nodes.indexOf(enter)} ${nodes.indexOf(leave)},`;
    }
    return { links, key, size, network: () => this.#network(links, red, black) };
  }

  #block(which: number): Block {
    const before = this.#known[which];
    if (before) return before;
    const { blocks, from, to } = this.#graph;
    const nodes: number[] = [];
    const numbered = this.#numbering(nodes);
    let text = '';
    for (const edge of blocks.edgesOf(which)) {
      text += `${contentOf(this.#elements[edge]!)} ${numbered(from[edge]!)} ${numbered(to[edge]!)},`;
    }
    for (const node of nodes) this.#numberOf[node] = -1;
    const fresh = { key: blockNumbers.remember(text, () => nextNumber++), nodes };
    this.#known[which] = fresh;
    return fresh;
  }

  #network(links: readonly Link[], a: number, b: number) {
    const { blocks, from, to } = this.#graph;
    const nodes: number[] = [];
    const numbered = this.#numbering(nodes);
    const elements = links.flatMap(({ block }) =>
      blocks.edgesOf(block).map(edge => placed(this.#elements[edge]!, numbered(from[edge]!), numbered(to[edge]!))),
    );
    const leads = { a: numbered(a), b: numbered(b) };
    for (const node of nodes) this.#numberOf[node] = -1;
    return { network: { nodeCount: nodes.length, elements, joins: [] }, ...leads };
  }

  #numbering(nodes: number[]): (node: number) => number {
    return node => {
      if (this.#numberOf[node] === -1) this.#numberOf[node] = nodes.push(node) - 1;
      return this.#numberOf[node]!;
    };
  }
}

/** A block is some kilobytes of text, and met again in the networks of other situations. */
const blockNumbers = new BoundedMap<string, number>(1_000);

/** The element between other nodes, in the order of `endsOf`. */
function placed(element: Element, from: NodeId, to: NodeId): Element {
  switch (element.kind) {
    case 'resistance':
      return { kind: 'resistance', id: element.id, a: from, b: to, ohms: element.ohms, tied: element.tied };
    case 'voltage':
      return { kind: 'voltage', id: element.id, minus: from, plus: to, volts: element.volts };
    case 'current':
      return { ...element, from, to };
  }
}
