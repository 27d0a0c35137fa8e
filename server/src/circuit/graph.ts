import { BoundedMap } from '../base/bounded-map.ts';
import { BlockTree } from '../graph/block-tree.ts';
import { type EliminationPlan, planElimination } from '../numeric/star-mesh.ts';
import { type Element, endsOf, isIdealConnection, type Network } from './network.ts';
import { type SourceForest, sourceForest } from './source-forest.ts';
import { conductingParts, mergedNodes } from './topology.ts';

/** What of a network is the same whatever the values of its elements are. An element is known by its place in the list. */
export class NetworkGraph {
  /** Number of each node after merging, and how many there are. */
  readonly nodeOf: Int32Array;
  readonly count: number;
  /** Merged nodes at the ends of each element, in the direction of `endsOf`. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly #words: Int32Array;
  #blocks: BlockTree | undefined;
  #frame: Frame | undefined;

  constructor(words: Int32Array, { of: nodeOf, count }: ReturnType<typeof mergedNodes>, elements: readonly Element[]) {
    this.#words = words;
    this.nodeOf = nodeOf;
    this.count = count;
    this.from = new Int32Array(elements.length);
    this.to = new Int32Array(elements.length);
    for (let edge = 0; edge < elements.length; edge++) {
      const [from, to] = endsOf(elements[edge]!);
      this.from[edge] = nodeOf[from]!;
      this.to[edge] = nodeOf[to]!;
    }
  }

  get blocks(): BlockTree {
    this.#blocks ??= new BlockTree(this.count, this.from, this.to);
    return this.#blocks;
  }

  /** The same for every network that has this graph; any of them may be given. */
  frame(elements: readonly Element[]): Frame {
    this.#frame ??= frameOf(this, elements);
    return this.#frame;
  }

  isOf(words: Int32Array): boolean {
    const own = this.#words;
    if (own.length !== words.length) return false;
    for (let i = 0; i < words.length; i++) if (own[i] !== words[i]) return false;
    return true;
  }
}

/** Where the equations of a network have their numbers. */
export interface Frame {
  /** False where no choice of usable values has one solution: sources in a ring or shorted, a current without a way back. */
  readonly isSound: boolean;
  /** What conducting elements tie together, by merged node. */
  readonly islandOf: Int32Array;
  /** Groups of merged nodes that voltage sources tie together. */
  readonly forest: SourceForest;
  /** Places of the resistances between two different nodes, with the merged nodes and the groups at their ends. */
  readonly resistances: Int32Array;
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly groupA: Int32Array;
  readonly groupB: Int32Array;
  /** Places of the voltage sources, numbered as in `forest`, and then of the current sources. */
  readonly sources: Int32Array;
  readonly plan: EliminationPlan;
}

function frameOf({ nodeOf, count, from, to }: NetworkGraph, elements: readonly Element[]): Frame {
  const volts: number[] = [];
  const amps: number[] = [];
  const resistances: number[] = [];
  for (let edge = 0; edge < elements.length; edge++) {
    const { kind } = elements[edge]!;
    if (kind === 'voltage') volts.push(edge);
    else if (kind === 'current') amps.push(edge);
    else if (from[edge] !== to[edge]) resistances.push(edge);
  }
  const forest = sourceForest(
    count,
    volts.map(edge => to[edge]!),
    volts.map(edge => from[edge]!),
  );
  const { of: islandOf } = conductingParts(elements, nodeOf, count).classes();
  const isSound =
    forest.loops.length === 0 &&
    volts.every(edge => from[edge] !== to[edge]) &&
    amps.every(edge => islandOf[from[edge]!] === islandOf[to[edge]!]);
  const places = Int32Array.from(resistances);
  const a = places.map(edge => from[edge]!);
  const b = places.map(edge => to[edge]!);
  const groupA = a.map(node => forest.groupOf[node]!);
  const groupB = b.map(node => forest.groupOf[node]!);
  return {
    isSound,
    islandOf,
    forest,
    resistances: places,
    a,
    b,
    groupA,
    groupB,
    sources: Int32Array.from([...volts, ...amps]),
    plan: planElimination(forest.groupCount, groupA, groupB),
  };
}

/**
 * The graph of a network, shared with all that differ from it in values alone: of machines at other temperatures, of the next version of
 * a file.
 */
export function graphOf(network: Network): NetworkGraph {
  const before = known.get(network);
  if (before) return before;
  const fresh = sharedGraph(network, isIdealConnection);
  known.set(network, fresh);
  return fresh;
}

/** The same where what `isNothing` tells counts as a connection; all ideal ones are among it. */
export function graphWithout(network: Network, isNothing: (element: Element) => boolean): NetworkGraph {
  const isPlain = network.elements.every(element => isIdealConnection(element) || !isNothing(element));
  return isPlain ? graphOf(network) : sharedGraph(network, isNothing);
}

function sharedGraph(network: Network, isNothing: (element: Element) => boolean): NetworkGraph {
  const words = wordsOf(network, isNothing);
  const make = () => new NetworkGraph(words, mergedNodes(network, isNothing), network.elements);
  const graph = shared.remember(hashOf(words), make);
  return graph.isOf(words) ? graph : make();
}

const known = new WeakMap<Network, NetworkGraph>();
const shared = new BoundedMap<number, NetworkGraph>(100);

/** Equal for equal graphs, and for no others. */
function wordsOf({ nodeCount, elements, joins }: Network, isNothing: (element: Element) => boolean): Int32Array {
  const words = new Int32Array(2 + 3 * elements.length + 2 * joins.length);
  words[0] = nodeCount;
  words[1] = elements.length;
  let at = 2;
  for (const element of elements) {
    const [a, b] = endsOf(element);
    words[at++] = isNothing(element) ? 0 : kinds[element.kind];
    words[at++] = a;
    words[at++] = b;
  }
  for (const [a, b] of joins) {
    words[at++] = a;
    words[at++] = b;
  }
  return words;
}

const kinds = { resistance: 1, voltage: 2, current: 3 } as const;

/** FNV-1a, by words. */
function hashOf(words: Int32Array): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < words.length; i++) hash = Math.imul(hash ^ words[i]!, 0x01000193);
  return hash;
}
