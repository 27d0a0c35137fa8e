import { describe, expect, it } from 'vitest';
import type { Circuit } from '../../server/src/analysis/electrical.ts';
import { situationInWords } from '../../server/src/analysis/words/situation.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { lead, systemOf } from './support.ts';

/** Volts to the frame after these settings, one after the other. */
function measured(circuit: Circuit, point: string, ...settings: [name: string, state: string][]) {
  let now = circuit.rest;
  for (const [name, state] of settings) now = circuit.become(now, new Map([...now.states, [name, state]]), now.apart);
  const red = lead(point);
  const at = { measure: 'voltage', measurePlace: red.place, red, black: lead('GND-1') } as const;
  const reading = circuit.read(at, handheldMeter, now);
  return {
    volts: reading.state === 'number' ? reading.nominal : Number.NaN,
    words: situationInWords(now, circuit.rest),
  };
}

describe('a relay with hysteresis', () => {
  // Operate <= 7.2 V, release >= 1.2 V: component data sheet quoted in the references of relays (xonelec.com, dtsheet.com). In between
  // a relay does what it did before.
  const circuit = systemOf(`
format: 1
system: hold
conditions: { supply: [off, weak, full] }
parts:
  G1:
    kind: supply
    voltage: [{ when: { supply: off }, is: 0 V }, { when: { supply: weak }, is: 4 V }, { when: { supply: full }, is: 12 V }]
  K1: { kind: relay, coil: 100 Ω, pull-in: 7.2 V, drop-out: 1.2 V }
  E1: { kind: resistor, resistance: 100 Ω }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to K1.85
  - W2: K1.86 to GND-1
  - W3: G1.+ to K1.30
  - W4: K1.87 to E1.1
  - W5: E1.2 to GND-1
  - W6: G1.- to GND-1
`).circuit('standard');

  it('stays off on the way up', () => {
    expect(measured(circuit, 'E1.1', ['supply', 'weak'])).toEqual({ volts: 0, words: '`supply` at weak' });
  });

  it('stays on at the same voltage on the way down, and the situation says so', () => {
    const held = measured(circuit, 'E1.1', ['supply', 'full'], ['supply', 'weak']);
    expect(held.volts).toBeCloseTo(4, 9);
    expect(held.words).toBe('`supply` at weak, `K1` still on from before');
  });

  it('drops out below', () => {
    expect(measured(circuit, 'E1.1', ['supply', 'full'], ['supply', 'off'], ['supply', 'weak']).volts).toBe(0);
  });
});

describe('an operating rule with an end of its own', () => {
  const circuit = systemOf(`
format: 1
system: latch
conditions: { button: [released, held], seat: [occupied, empty] }
parts:
  G1: { kind: supply, voltage: 12 V }
  E1: { kind: resistor, resistance: 100 Ω }
  A1:
    kind: module
    pins: { 1: { name: feed }, 2: { name: drive, output: high side, feed: 1, on resistance: 1 mΩ } }
    rules: [{ when: { button: held }, do: { 2: on }, until: { seat: empty } }]
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to A1.1
  - W2: A1.2 to E1.1
  - W3: E1.2 to GND-1
  - W4: G1.- to GND-1
`).circuit('standard');

  it('stays in force after its cause has gone', () => {
    expect(measured(circuit, 'E1.1', ['button', 'held'], ['button', 'released']).volts).toBeCloseTo(12, 2);
  });

  it('ends by its `until`, and does not come back by itself', () => {
    expect(measured(circuit, 'E1.1', ['button', 'held'], ['button', 'released'], ['seat', 'empty']).volts).toBeCloseTo(
      0,
      9,
    );
    const again = measured(
      circuit,
      'E1.1',
      ['button', 'held'],
      ['button', 'released'],
      ['seat', 'empty'],
      ['seat', 'occupied'],
    );
    expect(again.volts).toBeCloseTo(0, 9);
  });

  it('stays in force in a module that has to be fed through a relay before it can do anything', () => {
    const fed = systemOf(`
format: 1
system: fed latch
conditions: { button: [released, held], key: [on, off] }
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: switch, closed: { key: on } }
  K1: { kind: relay, coil: 85 Ω, pull-in: 8 V, drop-out: 1.5 V }
  E1: { kind: resistor, resistance: 100 Ω }
  A1:
    kind: module
    powered: { pin: 1, above: 6 V }
    pins:
      1: { name: feed, draws: 1 kΩ }
      2: { name: drive, output: high side, feed: 1, on resistance: 1 mΩ }
    rules: [{ when: { button: held }, do: { 2: on }, until: { key: off } }]
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to S1.1
  - W2: S1.2 to K1.85
  - W3: K1.86 to GND-1
  - W4: G1.+ to K1.30
  - W5: K1.87 to A1.1
  - W6: A1.2 to E1.1
  - W7: E1.2 to GND-1
  - W8: G1.- to GND-1
`).circuit('standard');
    expect(measured(fed, 'E1.1', ['button', 'held'], ['button', 'released']).volts).toBeCloseTo(12, 2);
    expect(measured(fed, 'E1.1', ['button', 'held'], ['button', 'released'], ['key', 'off']).volts).toBeCloseTo(0, 9);
  });
});
