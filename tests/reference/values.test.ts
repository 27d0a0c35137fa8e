import { describe, expect, it } from 'vitest';
import { valuesTable } from '../../server/src/analysis/values/values.ts';
import { number, systemOf } from '../analysis/support.ts';
import published from './circuits.json' with { type: 'json' };

/**
 * The tables of textbook circuits against the node voltages and resistances that their books print. Each citation stands in the
 * title of its test. The meter's own 10 MΩ may move a reading by a thousandth; no circuit here is of megohms.
 */
interface Circuit {
  id: string;
  citation: string;
  elements: { ref: string; type: string; n: string[]; value?: number }[];
  fault: unknown;
  asked: { kind: string; ref?: string; nodes?: string[]; published: number; tolerance: number }[];
}

const loading = 1e-3;

const plain = (published.circuits as Circuit[]).filter(
  ({ fault, elements, asked }) =>
    fault === null &&
    elements.every(({ type, value }) => type === 'V' || (type === 'R' && value! > 0 && value! < 2e5)) &&
    elements.some(({ n }) => n.includes('0')) &&
    asked.some(isAgainstGround),
);

function isAgainstGround({ kind, nodes }: Circuit['asked'][number]): boolean {
  return kind === 'v' && nodes?.[1] === '0';
}

describe.each(plain.map(circuit => [`${circuit.id}: ${circuit.citation}`, circuit] as const))('%s', (_, circuit) => {
  const table = valuesTable(systemOf(textOf(circuit)), 'standard');

  for (const { nodes, published: volts, tolerance } of circuit.asked.filter(isAgainstGround)) {
    it(`node ${nodes![0]} is at ${volts} V`, () => {
      const row = table.voltages.find(({ red, also }) => [red, ...also].includes(`N${nodes![0]}`));
      const { nominal } = number(row!.readings[0]!.reading);
      expect(Math.abs(nominal - volts)).toBeLessThanOrEqual(tolerance + loading * Math.abs(volts));
    });
  }

  it('has every resistance as it is printed', () => {
    const ohms = table.resistances.map(({ red, readings }) => [red, number(readings[0]!.reading).nominal]);
    const printed = circuit.elements.filter(({ type }) => type === 'R').map(({ ref, value }) => [`${ref}.1`, value]);
    expect(ohms).toEqual(printed);
  });
});

it('has circuits to look at', () => {
  expect(plain.length).toBeGreaterThan(10);
});

function textOf({ elements }: Circuit): string {
  const ends = { V: ['+', '-'], R: ['1', '2'] } as const;
  const point = (node: string) => (node === '0' ? 'GND-0' : `N${node}`);
  const parts = elements.map(({ ref, type, value }) =>
    type === 'V'
      ? `  ${ref}: { kind: supply, voltage: ${value} V }`
      : `  ${ref}: { kind: resistor, resistance: ${value} Ω }`,
  );
  const wires = elements.flatMap(({ ref, type, n }) =>
    n.map((node, i) => `  - ${ref}${i}: ${ref}.${ends[type as 'V' | 'R'][i]} to ${point(node)}`),
  );
  const nodes = [...new Set(elements.flatMap(({ n }) => n))].filter(node => node !== '0');
  return `format: 1
system: book
parts:
${parts.join('\n')}
grounds: { GND-0: Reference }
splices: { ${nodes.map(node => `${point(node)}: Node ${node}`).join(', ')} }
wires:
${wires.join('\n')}
`;
}
