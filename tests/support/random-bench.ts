import type { BenchPart, Worth } from './bench.ts';

type Random = () => number;

export interface BenchOptions {
  readonly nodes: number;
  readonly supplies: number;
  readonly resistors: number;
  /** Diodes, zener diodes, lamps, tables. */
  readonly curves: number;
  /** Wires with a resistance, fuses and switches. */
  readonly lines: number;
  /** The part of the values that have a tolerance, and the largest one in percent. */
  readonly uncertain: number;
  readonly percent: number;
}

/** A bench whose nodes all hang together, with values as files write them: in a few digits. */
export function randomBench(random: Random, options: BenchOptions): BenchPart[] {
  const { nodes } = options;
  const pick = (count: number) => Math.floor(random() * count);
  const worth = (nominal: number): Worth => {
    const percent = random() < options.uncertain ? Number((random() * options.percent).toFixed(1)) : 0;
    return { nominal: Number(nominal.toPrecision(3)), percent };
  };
  const between = () => {
    const a = pick(nodes);
    return { a, b: (a + 1 + pick(nodes - 1)) % nodes };
  };
  const parts: BenchPart[] = [];
  for (let k = 0; k < options.supplies; k++) {
    const plus = 1 + pick(nodes - 1);
    const minus = random() < 0.7 ? 0 : (plus + 1 + pick(nodes - 1)) % nodes;
    const volts = worth(3 + random() * 21);
    parts.push({ kind: 'supply', id: `G${k + 1}`, a: plus, b: minus, volts, inside: worth(0.1 + random()) });
  }
  // A tree first, so that nothing is left alone.
  for (let k = 0; k < options.resistors; k++) {
    const ends = k < nodes - 1 ? { a: pick(k + 1), b: k + 1 } : between();
    parts.push({ kind: 'resistor', id: `R${k + 1}`, ...ends, ohms: worth(10 ** (4 * random())) });
  }
  for (let k = 0; k < options.curves; k++) parts.push(curve(random, k + 1, between(), worth));
  for (let k = 0; k < options.lines; k++) {
    const [id, ends, ohms] = [k + 1, between(), worth(0.005 + random() * 0.05)];
    const kind = pick(3);
    if (kind === 0) parts.push({ kind: 'wire', id: `W${id}`, ...ends, ohms });
    else if (kind === 1) parts.push({ kind: 'fuse', id: `F${id}`, ...ends, ohms });
    else parts.push({ kind: 'switch', id: `S${id}`, ...ends, ohms, isClosed: random() < 0.6 });
  }
  return parts;
}

function curve(
  random: Random,
  k: number,
  ends: { a: number; b: number },
  worth: (nominal: number) => Worth,
): BenchPart {
  const kind = random();
  if (kind < 0.4) {
    return {
      kind: 'diode',
      id: `V${k}`,
      ...ends,
      forward: worth(0.5 + 1.5 * random()),
      ohms: worth(0.1 + 5 * random()),
    };
  }
  if (kind < 0.65) {
    const [forward, breakdown, ohms] = [worth(0.6 + 0.2 * random()), worth(3 + 6 * random()), worth(1 + 5 * random())];
    return { kind: 'zener', id: `Z${k}`, ...ends, forward, breakdown, ohms };
  }
  if (kind < 0.85) {
    const watts = worth(2 + 20 * random());
    return { kind: 'lamp', id: `E${k}`, ...ends, watts, cold: worth((144 / watts.nominal) * (0.06 + 0.05 * random())) };
  }
  // A part that takes ever less more: flat in the middle of some.
  const at = [2 + random(), 5 + random(), 9 + random()].map(volts => Number(volts.toPrecision(3)));
  const step = Number((0.005 + 0.1 * random()).toPrecision(3));
  const isOpen = random() < 0.5;
  const amps = [0, isOpen ? 0 : step, isOpen ? step : 1.5 * step, 2 * step].map(value => Number(value.toPrecision(3)));
  const points = [0, ...at].map((volts, i) => [volts, amps[i]!] as const);
  return { kind: 'table', id: `X${k}`, ...ends, points, percent: worth(1).percent };
}
