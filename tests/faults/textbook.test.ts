import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeterPlace } from '../../server/src/model/step.ts';
import { lead, number, systemOf } from '../analysis/support.ts';
import published from '../reference/circuits.json' with { type: 'json' };

/**
 * Textbook circuits with a part open or shorted, or a joint gone bad, written as a system file whose derived fault is put into the
 * circuit. The answers are those that the books print; the citation stands in the title of each test.
 */
interface Circuit {
  id: string;
  citation: string;
  elements: { ref: string; type: string; n: string[]; value?: number }[];
  fault: { ref: string; kind: string } | null;
  asked: { kind: string; ref?: string; nodes?: string[]; published: number; tolerance: number }[];
}

const faulty = (published.circuits as Circuit[]).filter(c => c.fault);

describe.each(faulty.map(c => [`${c.id}: ${c.citation}`, c] as const))('%s', (_, circuit) => {
  const { ref, kind } = circuit.fault!;
  const view = systemOf(asSystem(circuit));
  const [variant] = view.system.variants;
  const id =
    kind === 'high-resistance' ? `${ref}-wire high resistance` : `${ref} ${kind === 'short' ? 'shorted' : kind}`;
  const fault = faultsOf(view.system, variant!).find(f => f.id === id)!;
  const board = view.circuit(variant!);
  const meter = { ...handheldMeter, inputOhms: Number.POSITIVE_INFINITY };
  const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };
  const at = (red: string, black: string): MeterPlace => ({
    measure: 'voltage',
    measurePlace: place,
    red: lead(red),
    black: lead(black),
  });
  const around = (name: string): MeterPlace => ({
    measure: 'current',
    measurePlace: place,
    around: { text: name, place },
  });

  it('has the fault in its derived list', () => expect(fault?.id).toBe(id));

  for (const asked of circuit.asked) {
    const [a, b] = asked.nodes ?? [];
    if (asked.kind === 'v') {
      it(`V(${a}, ${b}) = ${asked.published} V`, () => {
        const reading = number(board.read(at(`N${a}`, `N${b}`), meter, board.rest, effectOf(fault)));
        expect(Math.abs(reading.nominal - asked.published)).toBeLessThanOrEqual(asked.tolerance);
      });
    }
    if (asked.kind === 'i' && asked.ref !== ref) {
      it(`I(${asked.ref}) = ${asked.published} A`, () => {
        const reading = number(board.read(around(asked.ref!), meter, board.rest, effectOf(fault)));
        expect(Math.abs(Math.abs(reading.nominal) - Math.abs(asked.published))).toBeLessThanOrEqual(asked.tolerance);
      });
    }
  }
});

/** Nodes are splices; a joint gone bad is a wire in the place of the book's extra resistance. */
function asSystem({ elements, fault }: Circuit): string {
  const bad = fault?.kind === 'high-resistance' ? elements.find(e => e.ref === fault.ref) : undefined;
  const parts = elements.filter(e => e !== bad && (e.type === 'V' || e.type === 'R'));
  const nodes = [...new Set(elements.flatMap(e => e.n))];
  const ends = (type: string) => (type === 'V' ? ['+', '-'] : ['1', '2']);
  return [
    'format: 1',
    'system: book',
    'parts:',
    ...parts.map(({ ref, type, value }) =>
      type === 'V'
        ? `  ${ref}: { kind: supply, voltage: ${value} V }`
        : `  ${ref}: { kind: resistor, resistance: ${value} Ω }`,
    ),
    'splices:',
    ...nodes.map(n => `  N${n}: A node of the book`),
    'wires:',
    ...parts.flatMap(({ ref, type, n }) =>
      n.map((node, i) => `  - ${ref}-${i + 1}: ${ref}.${ends(type)[i]} to N${node}`),
    ),
    ...(bad ? [`  - ${bad.ref}-wire: N${bad.n[0]} to N${bad.n[1]}`] : []),
    'faults:',
    bad
      ? `  ${bad.ref}-wire high resistance: { resistance: ${bad.value} Ω }`
      : `  ${fault!.ref} ${fault!.kind === 'short' ? 'shorted: { resistance: 0 Ω }' : 'open: { likelihood: 1 }'}`,
    '',
  ].join('\n');
}
