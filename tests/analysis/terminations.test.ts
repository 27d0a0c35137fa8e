import { expect, it } from 'vitest';
import { ask, number, systemOf } from './support.ts';

// ISO 11898-2: a bus of two wires ends in 120 Ω at either end, so that 60 Ω are read between them (from memory).
const bus = systemOf(`
format: 1
system: bus
parts:
  R1: { kind: resistor, resistance: 120 Ω ± 1 % }
  R2: { kind: resistor, resistance: 120 Ω ± 1 % }
wires:
  - W1: R1.1 to R2.1
  - W2: R1.2 to R2.2
`);
const between = { measure: 'resistance', red: 'R1.1', black: 'R1.2' } as const;

it('two terminating resistors of 120 Ω read 60 Ω between the wires of a bus', () => {
  const { low, nominal } = number(ask(bus, between));
  expect(nominal).toBeCloseTo(60, 9);
  expect(low).toBeCloseTo(59.4, 9);
});

it('one that is unplugged leaves 120 Ω', () => {
  expect(number(ask(bus, { ...between, apart: ['R2'] })).nominal).toBeCloseTo(120, 9);
});
