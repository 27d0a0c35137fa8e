import type { Network } from '../circuit/network.ts';
import { checkTopology, mergedNodes, type TopologyProblem } from '../circuit/topology.ts';
import type { Trouble } from './electrical.ts';
import { internalOf } from './lower/part-elements.ts';

/** Whether an element of the network is part of what the author called `name`: `K3 coil` of `K3`, `A1.14 pull-up` of `A1`. */
export function belongsTo(id: string, name: string): boolean {
  return id === name || (id.startsWith(name) && ' ./'.includes(id.charAt(name.length)));
}

/** Problems of the topology in the author's names. */
export function troublesIn(network: Network): readonly Trouble[] {
  const problems = checkTopology(network).flatMap((problem): Trouble[] => {
    const kind = kinds[problem.kind];
    return kind ? [{ kind, names: namesOf(problem) }] : [];
  });
  const inside = shortedThroughInside(network).map((name): Trouble => ({ kind: 'supply shorted', names: [name] }));
  return [...problems, ...inside];
}

/** Supplies whose terminals are one point, so that only their own internal resistance limits the current. */
function shortedThroughInside(network: Network): readonly string[] {
  const { of: nodeOf } = mergedNodes(network);
  const inner = new Map(
    network.elements.flatMap(one => (one.kind === 'resistance' ? [[one.id, nodeOf[one.b]] as const] : [])),
  );
  return network.elements.flatMap(one => {
    if (one.kind !== 'voltage' || !inner.has(internalOf(one.id))) return [];
    return inner.get(internalOf(one.id)) === nodeOf[one.minus] ? [one.id] : [];
  });
}

/** The others come from a meter or from a value that could not be read. */
const kinds: Partial<Record<TopologyProblem['kind'], Trouble['kind']>> = {
  'source-loop': 'supplies tied together',
  'source-shorted': 'supply shorted',
  'self-loop': 'wired to itself',
  'non-positive-resistance': 'no resistance',
};

function namesOf(problem: TopologyProblem): readonly string[] {
  return 'elements' in problem ? problem.elements : [problem.element];
}
