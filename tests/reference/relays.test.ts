import { describe, expect, it } from 'vitest';
import type { Situation } from '../../server/src/analysis/situation.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeterPlace } from '../../server/src/model/step.ts';
import { ask, lead, number, systemOf } from '../analysis/support.ts';

/**
 * Plug-in relays of the mini footprint by their data sheets (xonelec.com and dtsheet.com; the first three rows are of one maker, the
 * others of another): the coil picks up at the operate voltage at the latest, and lets go at the release voltage at the latest.
 */
const dataSheets = [
  { rated: 12, coil: 85, operate: 8, release: 1.5 },
  { rated: 12, coil: 75, operate: 6.5, release: 1 },
  { rated: 24, coil: 255, operate: 16, release: 3 },
  { rated: 12, coil: 100, operate: 7.2, release: 1.2 },
  { rated: 24, coil: 320, operate: 14.8, release: 2.4 },
] as const;

const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };
const between = (red: string, black: string): MeterPlace => ({
  measure: 'voltage',
  measurePlace: place,
  red: lead(red),
  black: lead(black),
});
const aroundCoil: MeterPlace = { measure: 'current', measurePlace: place, around: { text: 'K1', place } };

describe.each(dataSheets)('a relay of $rated V and $coil Ω', ({ rated, coil, operate, release }) => {
  const view = systemOf(`
format: 1
system: relay
conditions: { supply: [none, short of operate, at operate, short of release, rated] }
parts:
  G1:
    kind: supply
    voltage:
      - { when: { supply: none }, is: 0 V }
      - { when: { supply: short of operate }, is: ${operate - 0.1} V }
      - { when: { supply: at operate }, is: ${operate} V }
      - { when: { supply: short of release }, is: ${(release - 0.1).toFixed(1)} V }
      - { when: { supply: rated }, is: ${rated} V }
  G2: { kind: supply, voltage: 5 V }
  K1: { kind: relay, coil: ${coil} Ω, pull-in: ${operate} V, drop-out: ${release} V, contact resistance: 0.01 Ω }
  R1: { kind: resistor, resistance: 100 Ω }
grounds: { GND-1: Frame }
wires:
  - W1: G1.+ to K1.86
  - W2: K1.85 to GND-1
  - W3: G2.+ to K1.30
  - W4: K1.87 to R1.1
  - W5: R1.2 to GND-1
  - W6: G1.- to GND-1
  - W7: G2.- to GND-1
`);
  const circuit = view.circuit('standard');
  const next = (before: Situation, supply: string) =>
    circuit.become(before, new Map([...before.states, ['supply', supply]]), before.apart);
  const isOn = (now: Situation) => number(circuit.read(between('R1.1', 'R1.2'), handheldMeter, now)).nominal > 4.9;

  it('picks up at the operate voltage and not before', () => {
    expect(isOn(next(circuit.rest, 'short of operate'))).toBe(false);
    expect(isOn(next(circuit.rest, 'at operate'))).toBe(true);
  });

  it('holds in between, and lets go under the release voltage', () => {
    const on = next(circuit.rest, 'rated');
    const held = next(on, 'short of operate');
    expect([isOn(on), isOn(held)]).toEqual([true, true]);
    expect(isOn(next(held, 'short of release'))).toBe(false);
  });

  it('has the resistance of its coil, and takes the current that follows', () => {
    const apart = ask(view, { measure: 'resistance', red: 'K1.86', black: 'K1.85', apart: ['G1'] });
    expect(number(apart).nominal).toBeCloseTo(coil, 6);
    const amps = number(circuit.read(aroundCoil, handheldMeter, next(circuit.rest, 'rated'))).nominal;
    expect((Math.abs(amps) * coil) / rated).toBeCloseTo(1, 9);
  });
});

it('coils take the printed power', () => {
  // 85 Ω are printed with 1.7 W, 75 Ω with 1.9 W (both of 12 V): V² / R.
  expect(12 ** 2 / 85).toBeCloseTo(1.7, 1);
  expect(12 ** 2 / 75).toBeCloseTo(1.9, 1);
});

it('a coil of 85 Ω with its tolerance reads 76.5 Ω to 93.5 Ω', () => {
  // 85 Ω ± 10 % (the same data sheet).
  const view = systemOf('format: 1\nsystem: one\nparts: { K1: { kind: relay, coil: 85 Ω ± 10 %, pull-in: 8 V } }\n');
  const { low, high } = number(ask(view, { measure: 'resistance', red: 'K1.85', black: 'K1.86' }));
  expect([low, high]).toEqual([expect.closeTo(76.5, 9), expect.closeTo(93.5 + handheldMeter.resistance.leadsOhms, 9)]);
});

it('a suppression resistor is read with the coil: 68 Ω, 176 mA at 12 V', () => {
  // Measured at the terminals of a coil of 12 V (the same data sheets). 340 Ω beside 85 Ω are 68 Ω.
  const view = systemOf(`
format: 1
system: one
parts:
  G1: { kind: supply, voltage: 12 V }
  K1: { kind: relay, coil: 85 Ω, pull-in: 8 V, suppression: { resistor: 340 Ω } }
wires: [W1: G1.+ to K1.86, W2: G1.- to K1.85]
`);
  const ohms = ask(view, {
    measure: 'resistance',
    red: 'K1.86 (part side)',
    black: 'K1.85 (part side)',
    apart: ['K1'],
  });
  expect(number(ohms).nominal).toBeCloseTo(68, 9);
  const circuit = view.circuit('standard');
  const around: MeterPlace = { measure: 'current', measurePlace: place, around: { text: 'G1', place } };
  expect(number(circuit.read(around, handheldMeter, circuit.rest)).nominal).toBeCloseTo(0.176, 3);
});

describe('a contact that carries 10 A', () => {
  // Printed: 15 mV typical, 200 mV at most over the contact that closes; 20 mV and 250 mV over the one that opens.
  it.each([
    ['87', 0.0015, 0.015],
    ['87', 0.02, 0.2],
    ['87a', 0.002, 0.02],
    ['87a', 0.025, 0.25],
  ])('30 to %s with %d Ω drops %d V', (contact, ohms, volts) => {
    const view = systemOf(`
format: 1
system: one
parts:
  G1: { kind: supply, voltage: ${10 * (1 + ohms)} V }
  G2: { kind: supply, voltage: ${contact === '87' ? 12 : 0} V }
  K1: { kind: relay, coil: 85 Ω, pull-in: 8 V, contact resistance: ${ohms} Ω }
  R1: { kind: resistor, resistance: 1 Ω }
wires:
  - W1: G2.+ to K1.86
  - W2: G2.- to K1.85
  - W3: G1.+ to K1.30
  - W4: K1.${contact} to R1.1
  - W5: R1.2 to G1.-
`);
    const drop = number(ask(view, { measure: 'voltage drop', red: 'K1.30', black: `K1.${contact}` }));
    expect(drop.nominal).toBeCloseTo(volts, 8);
  });
});
