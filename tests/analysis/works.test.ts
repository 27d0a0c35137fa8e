import { describe, expect, it } from 'vitest';
import { systemOf } from './support.ts';

/** A lamp behind a resistance, beside what keeps its own current or its own voltage whatever feeds it. */
const beside = (part: string) => `format: 1
system: some
conditions: { level: { from: 0 m, to: 4 m, rest: 1 m } }
parts:
  G1: { kind: supply, voltage: 12 V }
  E1: { kind: resistor, resistance: 100 Ω }
  R1: { kind: resistor, resistance: 30 Ω }
  R2: { kind: resistor, resistance: 100 Ω }
  ${part}
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to R1.1
  - W2: R1.2 to E1.1
  - W3: E1.2 to GND-1
  - W4: G1.+ to B1.1
  - W5: B1.2 to R2.1
  - W6: R2.2 to GND-1
  - W7: G1.- to GND-1
`;

describe('a load works from two thirds of the highest supply on', () => {
  // 12 V · 100 Ω / 130 Ω is 9.2 V, over 8 V. No other supply is there: a loop of 8 mA is none, nor what a diode drops.
  it.each([
    ['B1: { kind: resistor, resistance: 10 Ω }'],
    ['B1: { kind: current loop, follows: level, span: 4 mA .. 20 mA }'],
    ['B1: { kind: diode, forward voltage: 0.7 V, terminals: [1, 2] }'],
  ])('beside %s', part => {
    const circuit = systemOf(beside(part)).circuit('standard');
    expect(circuit.works('E1', circuit.rest)).toEqual(['on']);
  });
});

describe('a load whose ohms change with its voltage', () => {
  const machine = (part: string) =>
    systemOf(`format: 1
system: some
conditions: { key: [off, on] }
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: switch, closed: { key: on } }
  ${part}
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to S1.1
  - W2: S1.2 to E1.1
  - W3: E1.2 to GND-1
  - W4: G1.- to GND-1
`).circuit('standard');

  it.each([
    ['E1: { kind: lamp, power: 21 W, voltage: 12 V }'],
    ['E1: { kind: motor, resistance: 0.8 Ω, running: { voltage: 12 V, current: 4 A } }'],
  ])('%s', part => {
    const circuit = machine(part);
    expect(circuit.works('E1', circuit.rest)).toEqual(['off']);
    expect(circuit.works('E1', circuit.become(circuit.rest, new Map([['key', 'on']]), new Set()))).toEqual(['on']);
  });
});
