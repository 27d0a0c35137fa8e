import type { Network } from '../circuit/network.ts';
import { checkTopology, type TopologyProblem } from '../circuit/topology.ts';
import type { Trouble } from './electrical.ts';
import type { Wiring } from './lower/wiring.ts';
import { shorts } from './shorted.ts';

/** Problems of the topology, and shorts, in the author's names. */
export function troublesIn(network: Network, wiring: Wiring): readonly Trouble[] {
  const problems = checkTopology(network).flatMap((problem): Trouble[] => {
    const kind = kinds[problem.kind];
    return kind ? [{ kind, names: namesOf(problem) }] : [];
  });
  const shorted = shorts(network, wiring).map(
    ({ supplies, through, amps }): Trouble => ({ kind: 'supply shorted', names: supplies, through, amps }),
  );
  return [...problems, ...shorted];
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
