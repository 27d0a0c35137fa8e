import { blockOf } from '../graph/blocks.ts';
import { UnionFind } from '../graph/union-find.ts';
import type { Branch, Core, CoreSource } from './core.ts';
import { type CurrentSource, type Element, endsOf, type Network, type Resistance, rangeOf } from './network.ts';
import { type Offset, sourceForest } from './source-forest.ts';
import { conductingParts, elementProblem, isDriving, mergedNodes, type TopologyProblem } from './topology.ts';

/** Id of the elements that stand for the meter itself; never shown, for their values have no tolerance. */
export const METER = '';

/** What is read: the voltage between two nodes, or the current delivered by a voltage source (by its index). */
export type Probe = { kind: 'voltage'; red: number; black: number } | { kind: 'current'; source: number };

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
 * 3. ideal voltage sources are merged, their volts kept as offsets;
 * 4. of what is left, again only the block of the reading, in which the adjoint network carries current at all.
 */
export function extract(network: Network, probe: Probe): Extracted {
  const { of: nodeOf, count } = mergedNodes(network);
  const { elements } = network;
  const readingEdge = probe.kind === 'voltage' ? elements.length : probe.source;
  const from = elements.map(element => nodeOf[endsOf(element)[0]]!);
  const to = elements.map(element => nodeOf[endsOf(element)[1]]!);
  if (probe.kind === 'voltage') {
    from.push(nodeOf[probe.red]!);
    to.push(nodeOf[probe.black]!);
  }

  const block = blockOf(count, from, to, readingEdge).filter(edge => edge < elements.length);
  const parts = conductingParts(
    elements.filter(element => element.id !== METER || element.kind === 'voltage'),
    nodeOf,
    count,
  );
  const problems = problemsIn(block, elements, nodeOf, parts);
  if (problems.length > 0) return { state: 'unsolvable', problems };
  if (probe.kind === 'voltage' && parts.find(nodeOf[probe.red]!) !== parts.find(nodeOf[probe.black]!)) {
    return { state: 'floating', lead: floatingLead(elements, nodeOf, parts, probe.red, probe.black) };
  }

  const tied = block.filter(edge => elements[edge]!.kind === 'voltage' && edge !== readingEdge);
  const forest = sourceForest(
    count,
    tied.map(edge => to[edge]!),
    tied.map(edge => from[edge]!),
  );
  const loops = forest.loops.map(loop => loop.map(index => elements[tied[index]!]!.id));
  const [readingFrom, readingTo] = [from[readingEdge]!, to[readingEdge]!];
  const closed = forest.groupOf[readingFrom] === forest.groupOf[readingTo];
  if (loops.length > 0) {
    return { state: 'unsolvable', problems: loops.map(ids => ({ kind: 'source-loop', elements: ids })) };
  }
  if (probe.kind === 'current' && closed) return { state: 'unsolvable', problems: [closedBySources()] };

  return { state: 'core', core: buildCore() };

  function closedBySources(): TopologyProblem {
    const [a, b] = [forest.offsetOf(readingFrom), forest.offsetOf(readingTo)];
    const ring = [...a.keys(), ...b.keys()].filter(index => a.has(index) !== b.has(index));
    const ids = ring.map(index => elements[tied[index]!]!.id);
    const own = elements[readingEdge]!.id;
    if (own !== METER) return { kind: 'source-loop', elements: [...ids, own] };
    return ids.length > 0 ? { kind: 'meter-across-source', elements: ids } : { kind: 'meter-shorted', elements: [] };
  }

  function buildCore(): Core {
    const group = (node: number) => forest.groupOf[node]!;
    const resistances = block.filter(edge => elements[edge]!.kind === 'resistance');
    const edges = [...resistances, readingEdge];
    const inner = blockOf(
      forest.groupCount,
      edges.map(edge => group(from[edge]!)),
      edges.map(edge => group(to[edge]!)),
      edges.length - 1,
    );
    const kept = new Set(inner.map(index => edges[index]!));
    // What hangs on the block from outside has the potential of the node where it hangs, as far as sources are dead.
    const hanging = new UnionFind(forest.groupCount);
    for (const edge of resistances) {
      if (!kept.has(edge)) hanging.union(group(from[edge]!), group(to[edge]!));
    }
    const place = (node: number) => hanging.find(group(node));
    const [enter, leave] = [place(readingFrom), place(readingTo)];
    const number = new Map<number, number>();
    const numbered = (at: number) => {
      // A current reading joins the two ends of its source; which end a branch meets is kept in `probe`.
      const key = probe.kind === 'current' && at === leave ? enter : at;
      if (!number.has(key)) number.set(key, number.size);
      return number.get(key)!;
    };
    numbered(enter);
    numbered(leave);

    const sources = block.filter(edge => isDriving(elements[edge]!));
    const leadOffset = difference(forest.offsetOf(readingFrom), forest.offsetOf(readingTo));
    const branches: Branch[] = [];
    for (const edge of kept) {
      if (edge === readingEdge) continue;
      const element = elements[edge] as Resistance;
      const [a, b] = [place(from[edge]!), place(to[edge]!)];
      const crossing = probe.kind === 'current' ? Number(a === leave) - Number(b === leave) : 0;
      const offset = difference(forest.offsetOf(from[edge]!), forest.offsetOf(to[edge]!));
      const emf = sources.map(source => {
        if (source === readingEdge) return crossing;
        const own = tied.indexOf(source);
        return (offset.get(own) ?? 0) + crossing * (leadOffset.get(own) ?? 0);
      });
      const part = { kind: 'element', id: element.id, ohms: element.ohms } as const;
      branches.push({ a: numbered(a), b: numbered(b), part, emf, probe: crossing });
    }
    return {
      nodeCount: number.size,
      branches,
      sources: sources.map(edge => coreSource(elements[edge]!, edge)),
      leads: probe.kind === 'voltage' ? [numbered(enter), numbered(leave)] : null,
    };

    function coreSource(element: Element, edge: number): CoreSource {
      const base = { id: element.id, range: rangeOf(element) };
      if (element.kind !== 'current') {
        const direct = probe.kind === 'voltage' ? (leadOffset.get(tied.indexOf(edge)) ?? 0) : 0;
        return { ...base, injected: [], direct };
      }
      return { ...base, ...injection(element) };
    }

    function injection(source: CurrentSource): Pick<CoreSource, 'injected' | 'direct'> {
      const [a, b] = [place(nodeOf[source.from]!), place(nodeOf[source.to]!)];
      const known = (at: number) => number.has(at) || (probe.kind === 'current' && at === leave);
      const crossing = probe.kind === 'current' ? Number(a === leave) - Number(b === leave) : 0;
      const injected: [number, number][] = [];
      if (a !== b && known(a)) injected.push([numbered(a), -1]);
      if (a !== b && known(b)) injected.push([numbered(b), 1]);
      return { injected, direct: crossing };
    }
  }
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

function difference(a: Offset, b: Offset): Map<number, number> {
  const result = new Map(a);
  for (const [source, sign] of b) {
    const sum = (result.get(source) ?? 0) - sign;
    if (sum === 0) result.delete(source);
    else result.set(source, sum);
  }
  return result;
}
