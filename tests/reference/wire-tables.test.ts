import { describe, expect, test } from 'vitest';
import type { WireSize } from '../../server/src/base/quantity/wire-size.ts';
import { gaugeAreaMm2, gaugeDiameterMm } from '../../server/src/circuit/conductor/gauge.ts';
import { copperFactor, ohmsAtTemperature } from '../../server/src/circuit/conductor/temperature.ts';
import { ohmsPerMetre, wireOhms } from '../../server/src/circuit/conductor/wire.ts';

/** Equal to the printed digits: within half a unit of the last one, and a hair for rounding halves. */
function expectPrinted(computed: number, printed: string, relativeSlack = 1e-9): void {
  const half = 0.5 * 10 ** -(printed.split('.')[1]?.length ?? 0);
  const apart = Math.abs(computed - Number(printed));
  expect(apart, `${computed} for ${printed}`).toBeLessThanOrEqual(half + Number(printed) * relativeSlack);
}

describe('AWG, solid annealed copper at 20 °C', () => {
  // Diameter in inches: ASTM B258, as printed in Lessons In Electric Circuits, vol. I, ch. 12.
  // Ohms per 1000 ft: NBS Handbook 100, Copper Wire Tables (1966), as carried by a published wire-resistance table;
  // the row of 10 AWG from memory. Ohms per km and mm²: computed outside this program, with 10.371 Ω·cmil/ft, which is the
  // standard's 1/58 Ω·mm²/m but for 1e-5.
  test.each([
    [10, '0.1019', '0.9989', '3.277', '5.261'],
    [12, '0.08081', '1.588', '5.211', '3.309'],
    [14, '0.06408', '2.525', '8.285', '2.081'],
    [16, '0.05082', '4.016', '13.17', '1.309'],
    [18, '0.04030', '6.385', '20.95', '0.8230'],
    [20, '0.03196', '10.15', '33.31', '0.5176'],
    [22, '0.02535', '16.14', '52.96', '0.3255'],
    [24, '0.02010', '25.67', '84.21', '0.2047'],
    [26, '0.01594', '40.81', '133.9', '0.1288'],
    [28, '0.01264', '64.90', '212.9', '0.0810'],
    [30, '0.01003', '103.2', '338.6', '0.0509'],
  ])('%d AWG', (gauge, inches, ohmsPer1000Feet, ohmsPerKm, mm2) => {
    expectPrinted(gaugeDiameterMm(gauge) / 25.4, inches);
    const { nominal } = ohmsPerMetre({ gauge }, 'solid');
    expectPrinted(nominal * 304.8, ohmsPer1000Feet);
    expectPrinted(nominal * 1000, ohmsPerKm, 1.1e-5);
    expectPrinted(gaugeAreaMm2(gauge), mm2);
  });

  test('the ends of the scale are exact by definition', () => {
    // ASTM B258: 36 AWG is 0.0050 in, 4/0 AWG is 0.4600 in.
    expect(gaugeDiameterMm(36) / 25.4).toBeCloseTo(0.005, 12);
    expect(gaugeDiameterMm(-3) / 25.4).toBeCloseTo(0.46, 12);
  });

  // UL 1581, stranded conductors, seen in a secondary table that quotes it.
  test.each([
    [18, 21.8],
    [20, 34.6],
  ])('stranded %d AWG at %d Ω/km lies in the range', (gauge, ohmsPerKm) => {
    const { low, high } = ohmsPerMetre({ gauge });
    expect(low * 1000).toBeLessThan(ohmsPerKm);
    expect(high * 1000).toBeGreaterThanOrEqual(ohmsPerKm);
    expect(high * 1000).toBeLessThan(ohmsPerKm * 1.005);
  });
});

describe('IEC 60228:2004, largest resistance of plain copper conductors at 20 °C', () => {
  // Tables 1 to 4, seen in four secondary tables that agree: mm², class 1 and 2, class 5 and 6, in Ω/km.
  test.each([
    [0.5, 36.0, 39.0],
    [0.75, 24.5, 26.0],
    [1, 18.1, 19.5],
    [1.5, 12.1, 13.3],
    [2.5, 7.41, 7.98],
    [4, 4.61, 4.95],
    [6, 3.08, 3.3],
    [10, 1.83, 1.91],
    [16, 1.15, 1.21],
    [25, 0.727, 0.78],
    [35, 0.524, 0.554],
    [50, 0.387, 0.386],
    [70, 0.268, 0.272],
    [95, 0.193, 0.206],
  ])('%d mm²', (areaMm2, solid, stranded) => {
    expect(ohmsPerMetre({ areaMm2 }, 'solid').high * 1000).toBeCloseTo(solid, 12);
    expect(ohmsPerMetre({ areaMm2 }, 'stranded').high * 1000).toBeCloseTo(stranded, 12);
    expect(ohmsPerMetre({ areaMm2 }, 'solid').nominal * 1000).toBeLessThan(solid);
  });

  // Factor to 20 °C, annex of the same standard, seen in a secondary table.
  test.each([
    [5, '1.064'],
    [10, '1.042'],
    [15, '1.020'],
    [20, '1.000'],
    [25, '0.980'],
    [30, '0.962'],
    [40, '0.926'],
    [50, '0.893'],
    [75, '0.820'],
    [100, '0.758'],
  ])('at %d °C', (temperatureC, kt) => {
    expectPrinted(1 / copperFactor(temperatureC), kt);
    expect(ohmsAtTemperature(1, 20, temperatureC) * Number(kt)).toBeCloseTo(1, 2);
  });
});

describe('ISO 6722-1, road-vehicle cable', () => {
  test('a worked voltage drop lies in the range', () => {
    // midmarchartsbooks.org, citing a cable chart: 1.5 mm² is 0.0127 Ω/m, and 4.17 A through 5 m drop 0.265 V.
    const { low, high } = wireOhms({ areaMm2: 1.5 }, 5, 20);
    expect(0.265).toBeGreaterThan(4.17 * low);
    expect(0.265).toBeLessThan(4.17 * high);
    expect(4.17 * 5 * 0.0127).toBeCloseTo(0.265, 3);
  });

  // Largest resistance in mΩ/m at 20 °C; 1.5 mm² seen in the example above, the others from memory.
  test.each([
    [0.35, 54.4],
    [0.5, 37.1],
    [0.75, 24.7],
    [1, 18.5],
    [1.25, 14.9],
    [1.5, 12.7],
    [2, 9.42],
    [2.5, 7.6],
    [3, 6.15],
    [4, 4.71],
    [5, 3.94],
    [6, 3.14],
    [8, 2.38],
    [10, 1.82],
    [16, 1.16],
    [25, 0.743],
    [35, 0.527],
    [50, 0.368],
    [70, 0.259],
    [95, 0.196],
  ])('%d mm² lies in the range', (areaMm2, milliohmsPerMetre) => {
    const { low, high } = ohmsPerMetre({ areaMm2 });
    expect(low * 1000).toBeLessThan(milliohmsPerMetre);
    expect(high * 1000).toBeGreaterThan(milliohmsPerMetre);
  });
});

describe('temperature', () => {
  test('a published example', () => {
    // Lessons In Electric Circuits, vol. I, ch. 12: 15 Ω of copper at 20 °C, coefficient 0.004041, is 15.909 Ω at 35 °C.
    expectPrinted(ohmsAtTemperature(15, 20, 35, 0.004041), '15.909');
  });

  test('a wire follows the factor of the standard', () => {
    const size: WireSize = { areaMm2: 0.75 };
    expect(wireOhms(size, 2, 75).high * 0.82).toBeCloseTo(wireOhms(size, 2, 20).high, 4);
  });
});
