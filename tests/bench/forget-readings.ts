import type { Network } from '../../server/src/circuit/network.ts';
import { read } from '../../server/src/circuit/reading.ts';

/** Equal parts of networks are read once in a process: so many others push them out of its memory. */
export function forgetReadings(): void {
  for (let i = 1; i <= 5_000; i++) {
    const ohms = { low: i, nominal: i, high: i };
    const network: Network = { nodeCount: 2, elements: [{ kind: 'resistance', id: 'R', a: 0, b: 1, ohms }], joins: [] };
    read(network, { measure: 'voltage', red: 0, black: 1, inputOhms: Number.POSITIVE_INFINITY });
  }
}
