import { expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { systemOf } from '../analysis/support.ts';

const { circuit, system } = systemOf(`format: 1
system: loop
parts:
  G1: { kind: battery, voltage: 12 V, internal resistance: 10 mΩ }
  R1: { kind: resistor, resistance: 10 Ω }
wires:
  - W1: G1.+ to R1.1, 1.5 mm², 1 m
  - W2: R1.2 to G1.-
`);
const [variant] = system.variants;
const board = circuit(variant!);

function clamp(wire: string, fault: string) {
  const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };
  const at = { measure: 'current', measurePlace: place, around: { text: wire, place } } as const;
  const found = faultsOf(system, variant!).find(({ id }) => id === fault);
  return board.read(at, handheldMeter, board.rest, found && effectOf(found));
}

// Kirchhoff's current law: what goes into a loop that is broken anywhere comes out nowhere.
it('a clamp around a wire that is broken shows that nothing flows', () => {
  expect(clamp('W1', 'W1 open')).toMatchObject({ state: 'number', nominal: 0, low: 0, high: 0, dimension: 'current' });
  expect(clamp('W1', 'R1 open')).toMatchObject({ state: 'number', nominal: 0 });
});

it('it goes around nothing where the wire has no ohms of its own', () => {
  expect(clamp('W2', '')).toMatchObject({ state: 'no contact', lead: 'around' });
});
