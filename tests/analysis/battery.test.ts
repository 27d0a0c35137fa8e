import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { ask, number, systemOf } from './support.ts';

const battery = (keys: string) =>
  systemOf(`
format: 1
system: bench
conditions: { key: [off, run, start], engine: [stopped, running] }
parts:
  G1: { kind: battery, ${keys} }
  R1: { kind: resistor, resistance: 1 kΩ }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to R1.1
  - W2: G1.- to GND-1
  - W3: R1.2 to GND-1
`);
const volts = (keys: string, set: Readonly<Record<string, string>> = {}) =>
  number(
    ask(battery(keys), { measure: 'voltage', red: 'G1.+', black: 'G1.-', set, inputOhms: Number.POSITIVE_INFINITY }),
  );

describe('a lead-acid battery at rest', () => {
  // Discover Battery, open-circuit voltage by state of charge, tables 6 to 8, at 26.7 °C. Other makers print 12.66, 12.45, 12.30 and
  // 12.15 V (motorhome.com) from full to a quarter, which the range has to hold, too.
  it.each([
    ['100 %', 12.65, 12.66],
    ['75 %', 12.45, 12.45],
    ['50 %', 12.24, 12.3],
    ['25 %', 12.06, 12.1],
    ['0 %', 11.89, 11.89],
  ])('charged to %s has the printed voltage', (charge, printed, other) => {
    const reading = volts(`charge: ${charge}`);
    expect(reading.nominal).toBeCloseTo(printed, 9);
    expect(reading.low).toBeLessThanOrEqual(printed);
    expect(reading.high).toBeGreaterThanOrEqual(other - 0.011);
  });

  it('of twelve cells has twice as much, and a charge between two limits gives both', () => {
    // The same rows times two, and 50 mV either way for six cells.
    const reading = volts('cells: 12, charge: 50 % .. 100 %');
    expect([reading.low, reading.high]).toEqual([expect.closeTo(24.48 - 0.1, 9), expect.closeTo(25.3 + 0.1, 9)]);
  });
});

describe('a battery with a shorted cell', () => {
  it('has one cell less of those it has, whatever is done to it', () => {
    const view = battery('cells: 12, charge: 100 %, cranking when: { key: start }');
    const list = faultsOf(view.system, 'standard');
    expect(list.find(({ id }) => id === 'G1 cell shorted')?.extent?.value).toBeCloseTo(-1 / 12, 12);
  });
});

describe('what is done to a battery', () => {
  const keys = 'charge: 100 %, cranking when: { key: start }, charging when: { engine: running }';

  it('cranking and charging change its voltage, cranking first', () => {
    // The limit of battery testers is 9.6 V while cranking, and a charging system holds 13.7 V to 14.7 V (see lead-acid.ts).
    expect(volts(keys, { key: 'start' })).toMatchObject({ low: 9.6 });
    expect(volts(keys, { key: 'start', engine: 'running' })).toMatchObject({ low: 9.6 });
    expect(volts(keys, { engine: 'running' })).toMatchObject({ low: 13.7, high: 14.7 });
  });

  it('a stated voltage goes before, as far as its tests go', () => {
    const stated = `${keys}, voltage: [{ when: { engine: running }, is: 13.6 V }]`;
    expect(volts(stated, { engine: 'running' }).nominal).toBeCloseTo(13.6, 9);
    expect(volts(stated).nominal).toBeCloseTo(12.65, 9);
    expect(volts(`${keys}, voltage: 12.5 V`, { key: 'start' }).nominal).toBeCloseTo(12.5, 9);
  });
});
