import { exact, type Ranged } from '../../server/src/base/ranged.ts';
import type { Element, Network } from '../../server/src/circuit/network.ts';

/** One line of a netlist: a reference (R, V, I or J for a join), two nodes by name, a value. For V the first node is plus. */
export type Line = readonly [ref: string, a: string, b: string, value?: number | Ranged];

/** Builds a network from a netlist, and tells the number of a named node. */
export function netlist(lines: readonly Line[]): { network: Network; node: (name: string) => number } {
  const numbers = new Map<string, number>();
  const node = (name: string) => {
    if (!numbers.has(name)) numbers.set(name, numbers.size);
    return numbers.get(name)!;
  };
  const elements: Element[] = [];
  const joins: [number, number][] = [];
  for (const [id, a, b, value = 0] of lines) {
    const range = typeof value === 'number' ? exact(value) : value;
    const [from, to] = [node(a), node(b)];
    if (id.startsWith('R')) elements.push({ kind: 'resistance', id, a: from, b: to, ohms: range });
    else if (id.startsWith('V')) elements.push({ kind: 'voltage', id, plus: from, minus: to, volts: range });
    else if (id.startsWith('I')) elements.push({ kind: 'current', id, from, to, amps: range });
    else joins.push([from, to]);
  }
  return {
    network: {
      get nodeCount() {
        return numbers.size;
      },
      elements,
      joins,
    },
    node,
  };
}
