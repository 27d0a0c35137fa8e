import { UnionFind } from '../graph/union-find.ts';

/** How much of each source a potential holds: source index -> +1 or -1. */
export type Offset = ReadonlyMap<number, number>;

/**
 * The nodes that ideal voltage sources tie to one another. Within a group every potential is known up to one unknown:
 *
 *     v(node) = v(root of its group) + sum over sources s of offset(node)[s] * volts[s]
 */
export interface SourceForest {
  /** Group number by node. */
  groupOf: Int32Array;
  groupCount: number;
  offsetOf: (node: number) => Offset;
  /** Volts of each node above the root of its group, for these values of the sources. */
  offsets: (volts: ArrayLike<number>) => Float64Array;
  /** Each loop of sources as source indices; the one that closes it stands last. */
  loops: number[][];
}

const none: Offset = new Map();

/** `plus[i]` and `minus[i]` are the ends of source `i`. */
export function sourceForest(nodeCount: number, plus: readonly number[], minus: readonly number[]): SourceForest {
  const groups = new UnionFind(nodeCount);
  const treeAt = new Map<number, number[]>();
  const closing: number[] = [];
  for (let source = 0; source < plus.length; source++) {
    if (!groups.union(plus[source]!, minus[source]!)) {
      closing.push(source);
      continue;
    }
    for (const end of [plus[source]!, minus[source]!]) {
      const list = treeAt.get(end);
      if (list) list.push(source);
      else treeAt.set(end, [source]);
    }
  }

  const known = new Map<number, Offset>();
  for (const root of treeAt.keys()) {
    if (!known.has(root)) spread(root, treeAt, plus, minus, known);
  }
  const offsetOf = (node: number) => known.get(node) ?? none;
  const offsets = (volts: ArrayLike<number>) => {
    const found = new Float64Array(nodeCount);
    for (const [node, offset] of known) for (const [source, sign] of offset) found[node]! += sign * volts[source]!;
    return found;
  };
  const loops = closing.map(source => [...pathBetween(offsetOf(plus[source]!), offsetOf(minus[source]!)), source]);
  const { of: groupOf, count: groupCount } = groups.classes();
  return { groupOf, groupCount, offsetOf, offsets, loops };
}

function spread(
  root: number,
  treeAt: ReadonlyMap<number, readonly number[]>,
  plus: readonly number[],
  minus: readonly number[],
  offsets: Map<number, Offset>,
): void {
  offsets.set(root, none);
  const open = [root];
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    for (const source of treeAt.get(node)!) {
      const [other, sign] = plus[source] === node ? [minus[source]!, -1] : [plus[source]!, 1];
      if (offsets.has(other)) continue;
      offsets.set(other, new Map(offsets.get(node)!).set(source, sign));
      open.push(other);
    }
  }
}

/** The sources on the tree path between two nodes: those that only one of the two potentials holds. */
function pathBetween(a: Offset, b: Offset): number[] {
  return [...[...a.keys()].filter(source => !b.has(source)), ...[...b.keys()].filter(source => !a.has(source))];
}
