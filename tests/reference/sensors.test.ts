import { describe, expect, it } from 'vitest';
import { exact, within } from '../../server/src/base/ranged.ts';
import type { SensorCurve } from '../../server/src/base/sensor-curve.ts';
import { sensorValue } from '../../server/src/circuit/curves/sensor.ts';

const pt100: SensorCurve = { standard: 'IEC 60751 Pt100' };
const typeK: SensorCurve = { standard: 'type K' };
const value = (curve: SensorCurve, celsius: number, endsC = 0) => sensorValue(curve, celsius, endsC);

describe('a platinum thermometer of 100 Ω', () => {
  // IEC 60751:2022 tables as printed in several public sources, -200 °C to 850 °C.
  it.each([
    [-200, 18.52],
    [-100, 60.26],
    [-50, 80.31],
    [0, 100],
    // 108.75 in one stored table: a typing error.
    [22, 108.57],
    [25, 109.73],
    [50, 119.4],
    [100, 138.51],
    [150, 157.33],
    [200, 175.86],
    [300, 212.05],
    [400, 247.09],
    [850, 390.48],
  ])('has at %d °C %d Ω', (celsius, ohms) => {
    expect(value(pt100, celsius)?.nominal).toBeCloseTo(ohms, 2);
  });

  it('has the curve of today, not that of 1968', () => {
    // The older coefficients 3.90802e-3 and -0.5802e-6 give 138.50 Ω at 100 °C.
    const older = 100 * (1 + 3.90802e-3 * 100 - 0.5802e-6 * 100 ** 2);
    expect(older).toBeCloseTo(138.5, 3);
    expect(value(pt100, 100)!.nominal - older).toBeGreaterThan(0.005);
  });

  it('has none beyond the standard', () => {
    expect([value(pt100, -201), value(pt100, 851)]).toEqual([undefined, undefined]);
  });

  it('is within 0.12 Ω at 0 °C in class B', () => {
    // IEC 60751 class B: 0.30 K at 0 °C, some 0.12 Ω (from memory).
    expect(value(pt100, 0)!.high - 100).toBeCloseTo(0.12, 2);
  });
});

describe('a thermistor by Steinhart and Hart', () => {
  // Campbell Scientific 109SS manual, table C-1; coefficients from memory, they give the table within 0.003 K.
  const probe: SensorCurve = { steinhart: { a: 1.129241e-3, b: 2.341077e-4, c: 8.775468e-8, tolerance: 0 } };
  it.each([
    [-40, 336103.2],
    [-20, 97006.9],
    [-10, 55303.9],
    [-5, 42316.7],
    [0, 32650.9],
    [1, 31030.8],
  ])('has at %d °C %d Ω', (celsius, ohms) => {
    // 0.003 K are some 0.02 % of the resistance.
    expect(value(probe, celsius)!.nominal / ohms).toBeCloseTo(1, 3);
    expect(Math.abs(value(probe, celsius)!.nominal / ohms - 1)).toBeLessThan(2.5e-4);
  });
});

describe('a thermistor by three points of its table', () => {
  // ILX LDT-5525 manual, appendix A, table A.1; its row of 40 °C (5331 Ω) is a misprint and left out. Coefficients through 0, 25 and 50 °C
  // find 10, 20 and 30 °C again: 10.000, 19.999 and 29.998 °C are printed.
  const table = [
    [0, 32128],
    [10, 19549],
    [20, 12262],
    [25, 9814],
    [30, 7908],
    [50, 3542],
  ] as const;
  const steinhart = { ...throughPoints([table[0], table[3], table[5]]), tolerance: 0 };

  it.each([
    [10, 10],
    [20, 19.999],
    [30, 29.998],
  ])('has at %d °C what the table has, but for two thousandths of a kelvin', (celsius, printed) => {
    const [, ohms] = table.find(([at]) => at === celsius)!;
    // The curve reaches the ohms of the table at the printed temperature.
    const perKelvin = value({ steinhart }, celsius + 0.5)!.nominal - value({ steinhart }, celsius - 0.5)!.nominal;
    const found = celsius + (ohms - value({ steinhart }, celsius)!.nominal) / perKelvin;
    expect(Math.abs(found - printed)).toBeLessThan(0.001);
  });

  it('goes through its three points', () => {
    for (const at of [0, 3, 5]) expect(value({ steinhart }, table[at]![0])!.nominal / table[at]![1]).toBeCloseTo(1, 9);
  });

  it('as a table of the product has each printed row', () => {
    const points = table.map(([at, ohms]) => ({ at, is: exact(ohms) }));
    for (const [celsius, ohms] of table)
      expect(value({ points, dimension: 'temperature' }, celsius)!.nominal).toBeCloseTo(ohms, 9);
  });
});

describe('the classes of platinum thermometers', () => {
  // IEC 60751: B 0.3 + 0.005 |t| is 0.8 K at 100 °C, A 0.15 + 0.002 |t| is 0.35 K; 0.379 Ω/K there, from memory.
  it.each([
    [undefined, 0.8],
    ['B', 0.8],
    ['A', 0.35],
    ['AA', 0.27],
    ['C', 1.6],
  ])('%s is off by %d K at 100 °C', (of, kelvin) => {
    const { low, nominal, high } = value({ standard: 'IEC 60751 Pt100', class: of }, 100)!;
    expect((high - nominal) / 0.379).toBeCloseTo(kelvin, 2);
    expect((nominal - low) / 0.379).toBeCloseTo(kelvin, 2);
  });
});

describe('a thermistor of 10 kΩ with B = 3380 K', () => {
  // R = R25 exp(B (1/T - 1/298.15)): notes.tk233.xyz.
  const beta = { atC: 25, ohms: exact(10e3), betaK: exact(3380) };
  it.each([
    [0, 28224],
    [50, 4160],
    [100, 1024],
  ])('has at %d °C %d Ω', (celsius, ohms) => {
    expect(value({ beta }, celsius)!.nominal).toBeCloseTo(ohms, -0.4);
  });

  it('is as wide as its tolerances, which part from the known point on', () => {
    const wide: SensorCurve = { beta: { ...beta, ohms: within(10e3, 0.05), betaK: within(3380, 0.01) } };
    expect(value(wide, 25)).toEqual({ low: 9500, nominal: 10e3, high: 10500 });
    const hot = value(wide, 100)!;
    expect(hot.high / hot.nominal).toBeGreaterThan(1.05);
    expect(hot.low / hot.nominal).toBeLessThan(0.95);
  });
});

describe('a thermocouple of type K against 0 °C', () => {
  // NIST ITS-90, SRD 60 (Monograph 175, Burns et al. 1993); the points at -100, -50, 25 to 200 and 1000 °C computed from the same
  // coefficients when the references were gathered, all others printed.
  it.each([
    [-270, -6.458],
    [-200, -5.891],
    [-180, -5.55],
    [-150, -4.913],
    [-130, -4.411],
    [-100, -3.554],
    [-50, -1.889],
    [0, 0],
    [25, 1],
    [50, 2.023],
    [100, 4.096],
    [200, 8.138],
    [500, 20.644],
    [1000, 41.276],
    [1372, 54.886],
  ])('has at %d °C %d mV', (celsius, millivolts) => {
    expect(1000 * value(typeK, celsius)!.nominal).toBeCloseTo(millivolts, 3);
  });

  it('is off by its class, but never past the end of its curve', () => {
    // Class 2 is 0.75 % from 333 °C on: 3.75 K at 500 °C, where a kelvin is some 43 µV (42.6 µV, from memory).
    const hot = value(typeK, 500)!;
    expect(1000 * (hot.high - hot.nominal)).toBeCloseTo(3.75 * 0.0426, 2);
    const hottest = value(typeK, 1372)!;
    expect(hottest.high).toBe(hottest.nominal);
    expect(hottest.low).toBeLessThan(hottest.nominal);
    expect(value(typeK, 20, 1400)).toBeUndefined();
  });

  // NIST ITS-90, type T, srdata.nist.gov type_t.tab, printed.
  it.each([
    [-200, -5.603],
    [-100, -3.379],
    [-50, -1.819],
  ])('of type T has at %d °C %d mV', (celsius, millivolts) => {
    expect(1000 * value({ standard: 'type T' }, celsius)!.nominal).toBeCloseTo(millivolts, 3);
  });

  it('gives nothing while its ends are as warm as its junction', () => {
    expect(value(typeK, 25, 25)?.nominal).toBe(0);
  });
});

/** Coefficients of Steinhart and Hart through three points: Newton's divided differences in ln R, made to lack the square. */
function throughPoints(points: readonly (readonly [celsius: number, ohms: number])[]) {
  const [x, y] = [points.map(([, ohms]) => Math.log(ohms)), points.map(([celsius]) => 1 / (celsius + 273.15))];
  const slope = (i: number) => (y[i]! - y[0]!) / (x[i]! - x[0]!);
  const c = (slope(2) - slope(1)) / (x[2]! - x[1]!) / (x[0]! + x[1]! + x[2]!);
  const b = slope(1) - c * (x[0]! ** 2 + x[0]! * x[1]! + x[1]! ** 2);
  return { a: y[0]! - (b + x[0]! ** 2 * c) * x[0]!, b, c };
}
