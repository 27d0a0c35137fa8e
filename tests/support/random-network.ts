import { exact, type Ranged, within } from '../../server/src/base/ranged.ts';
import type { Element, Network } from '../../server/src/circuit/network.ts';
import type { Measurement } from '../../server/src/circuit/reading.ts';
import { UnionFind } from '../../server/src/graph/union-find.ts';

/** Numbers in [0, 1) that are the same on every machine and in every run (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface RandomOptions {
  nodes: number;
  /** Resistances beyond those that a tree needs: bridges and parallel paths. */
  extra: number;
  voltageSources: number;
  currentSources: number;
  /** How many resistances have a tolerance, and the largest relative one. */
  uncertain: number;
  tolerance: number;
  /** Resistances are spread evenly over this many decades from 1 ohm. */
  decades: number;
}

/** A connected network whose ideal sources never form a loop. */
export function randomNetwork(random: () => number, options: RandomOptions): Network {
  const { nodes } = options;
  const pick = (count: number) => Math.floor(random() * count);
  const other = (node: number) => (node + 1 + pick(nodes - 1)) % nodes;
  const elements: Element[] = [];
  let uncertain = options.uncertain;
  const value = (): Ranged => {
    const ohms = 10 ** (random() * options.decades);
    return uncertain-- > 0 ? within(ohms, random() * options.tolerance) : exact(ohms);
  };
  const resistance = (a: number, b: number) =>
    elements.push({ kind: 'resistance', id: `R${elements.length}`, a, b, ohms: value() });
  for (let k = 0; k < options.extra; k++) {
    const a = pick(nodes);
    resistance(a, other(a));
  }
  for (let node = 1; node < nodes; node++) resistance(pick(node), node);
  const tied = new UnionFind(nodes);
  for (let k = 0; k < options.voltageSources; k++) {
    const minus = pick(nodes);
    const plus = other(minus);
    const volts = within(1 + random() * 24, k === 0 ? options.tolerance / 5 : 0);
    if (tied.union(plus, minus)) elements.push({ kind: 'voltage', id: `V${elements.length}`, plus, minus, volts });
  }
  for (let k = 0; k < options.currentSources; k++) {
    const from = pick(nodes);
    elements.push({ kind: 'current', id: `I${elements.length}`, from, to: other(from), amps: exact(random() - 0.5) });
  }
  return { nodeCount: nodes, elements, joins: [] };
}

/** Any kind of measurement at any place of the network. */
export function randomMeasurement(random: () => number, network: Network): Measurement {
  const pick = (count: number) => Math.floor(random() * count);
  const red = pick(network.nodeCount);
  const black = (red + 1 + pick(network.nodeCount - 1)) % network.nodeCount;
  switch (pick(6)) {
    case 0:
      return { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY };
    case 1:
      return { measure: 'voltage', red, black, inputOhms: 10e6 };
    case 2:
      return { measure: 'resistance', red, black, leadsOhms: exact(0.2), overLimitOhms: 60e6 };
    case 3:
      return { measure: 'current', red, black, burdenOhms: random() < 0.5 ? 0 : 0.1 };
    default:
      return { measure: 'clamp', element: network.elements[pick(network.elements.length)]!.id };
  }
}
