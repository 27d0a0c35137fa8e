import type { NodeId } from '../circuit/network.ts';
import { solve } from '../circuit/solve.ts';
import type { Potentials } from './electrical.ts';
import type { Wiring } from './lower/wiring.ts';
import type { Settled } from './settle.ts';

/** Every point at once, which costs no more than one reading. Undefined where the network has no solution. */
export function potentialsIn(wiring: Wiring, { network }: Settled): Potentials | undefined {
  const { value } = solve(network);
  if (!value) return undefined;
  const { voltages, island } = value;
  return (red, black) => {
    const [a, b] = [nodeOf(wiring, red), nodeOf(wiring, black)];
    if (a === undefined || b === undefined || island[a] !== island[b]) return 0;
    return voltages[a]! - voltages[b]!;
  };
}

/** Where a lead goes in from behind a mated plug. */
function nodeOf({ terminals, cavities, grounds, splices }: Wiring, point: string): NodeId | undefined {
  return (
    terminals.get(point)?.harness ?? grounds.get(point) ?? splices.get(point) ?? cavities.get(point)?.[0]?.sides[0].node
  );
}
