import { blockOf } from '../graph/blocks.ts';
import { UnionFind } from '../graph/union-find.ts';
import type { Branch, Core, CoreSource } from './core.ts';
import { type CurrentSource, type Element, type Resistance, rangeOf, type VoltageSource } from './network.ts';
import type { Offset, SourceForest } from './source-forest.ts';
import { isDriving } from './topology.ts';

/** The graph of a network, with the reading as one of its edges. */
export interface ReadGraph {
  elements: readonly Element[];
  /** Merged nodes at the ends of each element, `minus` and `plus` for a voltage source; leads stand behind the elements. */
  from: number[];
  to: number[];
  /** The edge between red and black, or the voltage source whose current is read. */
  readingEdge: number;
  isCurrent: boolean;
  /** Elements in the 2-connected block of the reading. */
  block: number[];
  /** Those of them that are voltage sources, the one that is read left out, and how they hang together. */
  tied: number[];
  forest: SourceForest;
}

/**
 * Merges the ideal voltage sources of the graph into groups of nodes, and keeps the resistances in the block of the
 * reading: the only ones in which the adjoint network, whose sources are dead, carries current at all.
 */
export function buildCore(graph: ReadGraph): Core {
  const { elements, from, to, readingEdge, isCurrent, block, tied, forest } = graph;
  const { kept, place } = innerBlock(graph);
  const [enter, leave] = [place(from[readingEdge]!), place(to[readingEdge]!)];
  // A current reading merges the two ends of its source as well; which of them a branch meets is kept in `crossing`.
  const numbers = new Map(isCurrent ? [[leave, 0]] : []);
  let nodeCount = 1;
  numbers.set(enter, 0);
  const numbered = (at: number) => {
    if (!numbers.has(at)) numbers.set(at, nodeCount++);
    return numbers.get(at)!;
  };
  const crossing = (a: number, b: number) => (isCurrent ? Number(a === leave) - Number(b === leave) : 0);
  const leads = isCurrent ? null : ([numbered(enter), numbered(leave)] as const);

  const sources = block.filter(edge => isDriving(elements[edge]!));
  const rank = new Map(tied.map((edge, at) => [edge, at]));
  const shareOf = (source: number, offset: Offset) => offset.get(rank.get(source) ?? -1) ?? 0;
  const leadOffset = difference(forest.offsetOf(from[readingEdge]!), forest.offsetOf(to[readingEdge]!));
  const undriven = sources.map(() => 0);
  const branches = kept.map((edge): Branch => {
    const { id, ohms } = elements[edge] as Resistance;
    const [a, b] = [place(from[edge]!), place(to[edge]!)];
    const probe = crossing(a, b);
    const offset = difference(forest.offsetOf(from[edge]!), forest.offsetOf(to[edge]!));
    const emf =
      offset.size === 0 && probe === 0
        ? undriven
        : sources.map(source =>
            source === readingEdge ? probe : shareOf(source, offset) + probe * shareOf(source, leadOffset),
          );
    return { a: numbered(a), b: numbered(b), part: { kind: 'element', id, ohms }, emf, probe };
  });

  const coreSources = sources.map((edge): CoreSource => {
    const element = elements[edge] as VoltageSource | CurrentSource;
    const own = { id: element.id, kind: element.kind, range: rangeOf(element) };
    if (element.kind !== 'current') return { ...own, injected: [], direct: isCurrent ? 0 : shareOf(edge, leadOffset) };
    // What feeds a part of the network away from the reading feeds it where that part hangs.
    const [a, b] = [place(from[edge]!), place(to[edge]!)];
    const injected: [number, number][] = [];
    if (a !== b && numbers.has(a)) injected.push([numbered(a), -1]);
    if (a !== b && numbers.has(b)) injected.push([numbered(b), 1]);
    return { ...own, injected, direct: crossing(a, b) };
  });
  return { nodeCount, branches, sources: coreSources, leads };
}

/** The resistances in the block of the reading, and the place of a node once all others have become connections. */
function innerBlock({ elements, from, to, readingEdge, block, forest }: ReadGraph) {
  const group = (node: number) => forest.groupOf[node]!;
  const resistances = block.filter(edge => elements[edge]!.kind === 'resistance');
  const edges = [...resistances, readingEdge];
  const inner = blockOf(
    forest.groupCount,
    edges.map(edge => group(from[edge]!)),
    edges.map(edge => group(to[edge]!)),
    resistances.length,
  );
  const kept = inner.filter(at => at < resistances.length).map(at => resistances[at]!);
  const hanging = new UnionFind(forest.groupCount);
  const isKept = new Set(kept);
  for (const edge of resistances) {
    if (!isKept.has(edge)) hanging.union(group(from[edge]!), group(to[edge]!));
  }
  return { kept, place: (node: number) => hanging.find(group(node)) };
}

function difference(a: Offset, b: Offset): Offset {
  if (a.size === 0 && b.size === 0) return a;
  const result = new Map(a);
  for (const [source, sign] of b) {
    const sum = (result.get(source) ?? 0) - sign;
    if (sum === 0) result.delete(source);
    else result.set(source, sum);
  }
  return result;
}
