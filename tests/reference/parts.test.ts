import { describe, expect, it } from 'vitest';
import { exact } from '../../server/src/base/ranged.ts';
import { ohmsAtTemperature } from '../../server/src/circuit/conductor/temperature.ts';
import { ohmsPerMetre, wireOhms } from '../../server/src/circuit/conductor/wire.ts';
import { coldOhms } from '../../server/src/circuit/curves/lamp.ts';
import { fuseOhms } from '../../server/src/circuit/fuse-table.ts';
import { read } from '../../server/src/circuit/reading.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { ask, number, systemOf } from '../analysis/support.ts';
import { type Line, netlist } from '../support/circuits.ts';

describe('resistors of a colour code, as an ohmmeter reads them', () => {
  // Values and tolerances of IEC 60062 bands: Lessons In Electric Circuits, vol. V, ch. 2, "Resistor color codes". The colours are not
  // in the product; a value with its tolerance is, and these are published ones.
  it.each([
    ['yellow violet orange gold', '47 kΩ ± 5 %', 44_650, 49_350],
    ['green red gold silver', '5.2 Ω ± 10 %', 4.68, 5.72],
    ['white violet black', '97 Ω ± 20 %', 77.6, 116.4],
    ['orange orange black brown violet', '3.3 kΩ ± 0.1 %', 3296.7, 3303.3],
    ['brown green grey silver red', '1.58 Ω ± 2 %', 1.5484, 1.6116],
    ['blue brown green silver blue', '6.15 Ω ± 0.25 %', 6.134625, 6.165375],
  ])('%s: %s', (_, written, low, high) => {
    const view = systemOf(`format: 1\nsystem: one\nparts: { R1: { kind: resistor, resistance: ${written} } }\n`);
    const shown = number(ask(view, { measure: 'resistance', red: 'R1.1', black: 'R1.2' }));
    expect(shown.low).toBeCloseTo(low, 9);
    expect(shown.high - handheldMeter.resistance.leadsOhms).toBeCloseTo(high, 9);
  });

  it('values of the series E6, E12 and E24 are read as they are written, in every decade', () => {
    // IEC 60063, as listed on a page of preferred values (qsl.net).
    const e24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];
    for (const [i, value] of e24.entries()) {
      const unit = ['Ω', 'kΩ', 'mΩ'][i % 3]!;
      const view = systemOf(
        `format: 1\nsystem: one\nparts: { R1: { kind: resistor, resistance: ${value} ${unit} } }\n`,
      );
      const shown = number(ask(view, { measure: 'resistance', red: 'R1.1', black: 'R1.2' })).nominal;
      expect(shown / { Ω: 1, kΩ: 1e3, mΩ: 1e-3 }[unit]!).toBeCloseTo(value, 9);
    }
  });
});

describe('metals other than annealed copper', () => {
  // Temperature coefficients at 20 °C of Lessons In Electric Circuits, vol. I, ch. 12, by R = R₀ (1 + α (T - 20 °C)).
  it.each([
    ['nickel', 0.005866],
    ['tungsten', 0.004403],
    ['aluminium', 0.004308],
    ['copper', 0.004041],
    ['manganin', 0.000015],
    ['constantan', -0.000074],
  ])('%s changes by its coefficient for each kelvin', (_, alpha) => {
    expect(ohmsAtTemperature(1000, 20, 21, alpha) - 1000).toBeCloseTo(1000 * alpha, 9);
    expect(ohmsAtTemperature(100, 20, 120, alpha)).toBeCloseTo(100 + 10_000 * alpha, 9);
  });

  it('copper of 10.09 Ω·cmil/ft is within the range of a wire', () => {
    // The same book: 1.678 µΩ·cm, of pure copper. A circular mil is the area of a circle of 0.001 in.
    const ohmMetre = (10.09 / 0.3048) * (Math.PI / 4) * 25.4e-6 ** 2;
    expect(ohmMetre * 1e8).toBeCloseTo(1.678, 2);
    const { low, high } = ohmsPerMetre({ areaMm2: 1 }, 'solid');
    expect(ohmMetre * 1e6).toBeLessThan(high);
    expect(Math.abs(ohmMetre * 1e6 - low) / low).toBeLessThan(0.03);
  });

  it('a cable with 0.265 V of drop loses 2.21 % of 12 V', () => {
    // midmarchartsbooks.org: 4.17 A through 5 m of 1.5 mm².
    const share = (ohms: number) => (4.17 * ohms) / 12;
    const { low, high } = wireOhms({ areaMm2: 1.5 }, 5, 20);
    expect(share(low)).toBeLessThan(0.0221);
    expect(share(high)).toBeGreaterThan(0.0221);
    expect(share(5 * 0.0127)).toBeCloseTo(0.0221, 4);
  });

  // IEC 60228:2004, class 5, tinned copper, seen in four secondary tables; 0.5 to 95 mm². Tinning has no place in the language: a tinned
  // wire is written with its ohms. It has up to 3 % more than the plain one whose range a size gives.
  it.each([
    [0.5, 40.1],
    [0.75, 26.7],
    [1, 20],
    [1.5, 13.7],
    [2.5, 8.21],
    [4, 5.09],
    [6, 3.39],
    [10, 1.95],
    [16, 1.24],
    [25, 0.795],
    [35, 0.565],
    [50, 0.393],
    [70, 0.277],
    [95, 0.21],
  ])('%d mm² tinned has %d Ω/km at most', (areaMm2, ohmsPerKm) => {
    const plain = ohmsPerMetre({ areaMm2 }, 'stranded').high * 1000;
    expect(ohmsPerKm / plain).toBeGreaterThan(1);
    expect(ohmsPerKm / plain).toBeLessThan(1.031);
  });
});

it('every rating of blade fuses has a cold resistance, less for more amperes', () => {
  // Ratings of the regular size, of the mini and of the maxi one: thelingofpower.blogspot.com.
  const ratings = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80];
  const ohms = ratings.map(rating => fuseOhms(rating)!.nominal);
  expect(ohms.every((value, i) => value > 0 && (i === 0 || value < ohms[i - 1]!))).toBe(true);
});

describe('the inrush of a filament lamp', () => {
  // As many times the lit current as hot ohms are cold ones: 14 (lamptech.co.uk), 10 to 12 (a white paper of a maker of switches).
  it.each([10, 12, 14])('of %d times is inside the range of a cold lamp', times => {
    for (const watts of [5, 21, 55]) {
      const cold = coldOhms(12, exact(watts));
      const hot = 12 ** 2 / watts;
      expect(hot / times).toBeGreaterThanOrEqual(cold.low);
      expect(hot / times).toBeLessThanOrEqual(cold.high + 1e-12);
    }
  });
});

describe('a battery that is charged', () => {
  // University Physics Volume 2 (OpenStax), ch. 10: a battery of 12.0 V has 16.0 V at its terminals at 10.0 A, and so 0.400 Ω inside;
  // one of 12.0 V with 15.0 V at 8.00 A has 0.375 Ω.
  it.each([
    [16, 10, 0.4],
    [15, 8, 0.375],
  ])('has %d V at its terminals at %d A', (volts, amps, inside) => {
    const lines: Line[] = [
      ['V1', 'cell', '0', 12],
      ['R1', 'cell', 'post', inside],
      ['I1', '0', 'post', amps],
    ];
    const { network, node } = netlist(lines);
    const at = {
      measure: 'voltage',
      red: node('post'),
      black: node('0'),
      inputOhms: Number.POSITIVE_INFINITY,
    } as const;
    expect(read(network, at)).toMatchObject({ state: 'number', nominal: expect.closeTo(volts, 9) });
    expect(read(network, { measure: 'clamp', element: 'V1' })).toMatchObject({ nominal: expect.closeTo(-amps, 9) });
  });
});
