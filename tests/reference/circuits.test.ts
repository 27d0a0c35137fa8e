import { describe, expect, it } from 'vitest';
import { exact } from '../../server/src/base/ranged.ts';
import type { Element, Network } from '../../server/src/circuit/network.ts';
import { type Measurement, read } from '../../server/src/circuit/reading.ts';
import { solve } from '../../server/src/circuit/solve.ts';
import published from './circuits.json' with { type: 'json' };

/**
 * Textbook circuits with the answers that their books print; every citation stands in the title of its test. A number that
 * the book gives exactly is held to `tight_tolerance`, a rounded one to half a unit of its last printed digit.
 */
interface Asked {
  kind: string;
  ref?: string;
  nodes?: string[];
  published: number;
  published_text: string;
  unit: string;
  exact: boolean;
  tolerance: number;
  tight_tolerance: number;
}
interface Direction {
  kind: string;
  ref?: string;
  nodes?: string[];
  change: string;
  healthy: number;
  faulted: number;
}
type Fault = { ref: string; kind: string } | null;
interface Circuit {
  id: string;
  citation: string;
  elements: { ref: string; type: string; n: string[]; value?: number }[];
  fault: Fault;
  asked: Asked[];
  directions: Direction[] | null;
}
const circuits = published.circuits as Circuit[];

describe.each(circuits.map(circuit => [`${circuit.id}: ${circuit.citation}`, circuit] as const))('%s', (_, circuit) => {
  const { network, node } = build(circuit, circuit.fault);
  const bench = { network, node, shorted: circuit.fault?.kind === 'short' ? circuit.fault.ref : undefined };

  for (const asked of circuit.asked) {
    const where = asked.nodes ? `V(${asked.nodes.join(', ')})` : `${asked.kind}(${asked.ref})`;
    it(`${where} = ${asked.published_text} ${asked.unit}`, () => {
      const found = quantity(bench, asked);
      const tolerance = asked.exact ? asked.tight_tolerance : asked.tolerance;
      expect(Math.abs(found - asked.published)).toBeLessThanOrEqual(tolerance);
    });
  }

  for (const direction of circuit.directions ?? []) {
    it(`${direction.kind}(${direction.ref ?? direction.nodes}) goes ${direction.change} with the fault`, () => {
      const { network: sound, node: soundNode } = build(circuit, null);
      const healthy = quantity({ network: sound, node: soundNode, shorted: undefined }, direction);
      const faulted = quantity(bench, direction);
      expect(Math.sign(faulted - healthy)).toBe(direction.change === 'up' ? 1 : -1);
      expect(healthy).toBeCloseTo(direction.healthy, 6);
      expect(faulted).toBeCloseTo(direction.faulted, 6);
    });
  }
});

it('asks as many quantities as the collection says', () => {
  expect(circuits.length).toBe(published.counts.circuits);
  expect(circuits.flatMap(circuit => circuit.asked).length).toBe(published.counts.quantities);
});

interface Bench {
  network: Network;
  node: (name: string) => number;
  /** A shorted element is an ideal connection; its current is read through an ideal ammeter in its place. */
  shorted: string | undefined;
}

/** An open takes the element away; a short puts an ideal connection in its place. */
function build(circuit: Circuit, fault: Fault): { network: Network; node: (name: string) => number } {
  const names = [...new Set(circuit.elements.flatMap(element => element.n))];
  const node = (name: string) => names.indexOf(name);
  const elements: Element[] = [];
  for (const { ref, type, n, value } of circuit.elements) {
    const [a, b] = n.map(node) as [number, number];
    const faulty = fault?.ref === ref ? fault.kind : undefined;
    if (type === 'ground' || faulty === 'open') continue;
    if (faulty === 'short') elements.push({ kind: 'resistance', id: ref, a, b, ohms: exact(0) });
    else if (type === 'R') elements.push({ kind: 'resistance', id: ref, a, b, ohms: exact(value!) });
    else if (type === 'V') elements.push({ kind: 'voltage', id: ref, plus: a, minus: b, volts: exact(value!) });
    else elements.push({ kind: 'current', id: ref, from: a, to: b, amps: exact(value!) });
  }
  return { network: { nodeCount: names.length, elements, joins: [] }, node };
}

function quantity(bench: Bench, asked: Pick<Asked, 'kind' | 'ref' | 'nodes'>): number {
  switch (asked.kind) {
    case 'v': {
      const [red, black] = asked.nodes!.map(bench.node) as [number, number];
      return agreed(bench, { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY }, () => {
        const { voltages } = operatingPoint(bench);
        return voltages[red]! - voltages[black]!;
      });
    }
    case 'i':
      return current(bench, asked.ref!);
    case 'p': {
      const element = bench.network.elements.find(({ id }) => id === asked.ref)!;
      const amps = current(bench, asked.ref!);
      if (element.kind === 'resistance') return amps ** 2 * element.ohms.nominal;
      if (element.kind === 'voltage') return amps * element.volts.nominal;
      const { voltages } = operatingPoint(bench);
      return amps * (voltages[element.to]! - voltages[element.from]!);
    }
    default: {
      const source = bench.network.elements.find(({ id }) => id === asked.ref)!;
      if (source.kind !== 'voltage') throw new Error('only a voltage source has an equivalent resistance asked');
      return source.volts.nominal / current(bench, asked.ref!);
    }
  }
}

/** An element that the fault took away carries nothing. */
function current(bench: Bench, ref: string): number {
  if (!bench.network.elements.some(({ id }) => id === ref)) return 0;
  const measurement: Measurement = { measure: 'clamp', element: ref };
  if (ref === bench.shorted) return numberOf(bench.network, measurement);
  // A resistor beside an ideal connection has no voltage across it, and solve leaves it out.
  return agreed(bench, measurement, () => operatingPoint(bench).currents.get(ref) ?? 0);
}

/** The reading, once the operating point of the whole network says the same. */
function agreed(bench: Bench, measurement: Measurement, whole: () => number): number {
  const reading = numberOf(bench.network, measurement);
  const other = whole();
  expect(Math.abs(reading - other)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(other)));
  return reading;
}

function numberOf(network: Network, measurement: Measurement): number {
  const reading = read(network, measurement);
  if (reading.state !== 'number') throw new Error(`the meter shows ${JSON.stringify(reading)}`);
  expect(reading).toMatchObject({ exact: true, low: reading.nominal, high: reading.nominal });
  return reading.nominal;
}

function operatingPoint({ network }: Bench) {
  const { value, problems } = solve(network);
  expect(problems).toEqual([]);
  return value!;
}
