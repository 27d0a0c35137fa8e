import { describe, expect, it } from 'vitest';
import { ask, number, systemOf } from './support.ts';

const systemWith = (part: string, wires: string) =>
  systemOf(`
format: 1
system: bench
temperature: 25 °C
conditions:
  oil: { from: -40 °C, to: 150 °C, rest: 25 °C }
  lever: { from: 0 %, to: 100 %, rest: 0 % }
  level: { from: 0 m, to: 4 m, rest: 0 m }
  gate: [shut, open]
parts:
  G1: { kind: supply, voltage: 5 V ± 10 % }
  G2: { kind: supply, voltage: 24 V ± 10 % }
  R1: { kind: resistor, resistance: 250 Ω }
  B1: { ${part} }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.- to GND-1
  - W2: G2.- to GND-1
${wires}
`);
const volts = (red: string, black: string, set: Record<string, string>) =>
  ({ measure: 'voltage', red, black, set, inputOhms: Number.POSITIVE_INFINITY }) as const;

describe('a potentiometer', () => {
  const pot = systemWith(
    'kind: potentiometer, follows: lever, resistance: 5 kΩ ± 10 %',
    '  - W3: G2.+ to B1.1\n  - W4: B1.3 to GND-1\n  - W5: B1.2 to R1.1',
  );

  it('divides its supply by where the lever is, whatever its track has', () => {
    const quarter = number(ask(pot, volts('B1.2', 'GND-1', { lever: '25 %' })));
    expect(quarter.nominal).toBeCloseTo(18, 9);
    // A part of the track alone has the tolerance, the ratio has none: only that of the supply is left.
    expect(quarter.attained).toEqual({ low: expect.closeTo(16.2, 9), high: expect.closeTo(19.8, 9) });
    // The bound comes as near as the cutting of the tolerance goes.
    expect([quarter.low / 16.2, quarter.high / 19.8]).toEqual([expect.closeTo(1, 2), expect.closeTo(1, 2)]);
    expect(quarter.low).toBeLessThanOrEqual(16.2);
  });

  it('is at its first terminal at rest and at its last at the other end', () => {
    expect(number(ask(pot, volts('B1.2', 'B1.1', {}))).nominal).toBeCloseTo(0, 9);
    expect(number(ask(pot, volts('B1.2', 'B1.3', { lever: '100 %' }))).nominal).toBeCloseTo(0, 9);
  });
});

describe('a ratiometric sensor', () => {
  const sensor = systemWith(
    'kind: ratiometric sensor, follows: lever, span: 10 % .. 90 %',
    '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1',
  );

  // The working span of 10 % to 90 % of the supply, 0.5 V to 4.5 V of 5 V: electronics.stackexchange 657765.
  it.each([
    ['0 %', 0.5],
    ['50 %', 2.5],
    ['100 %', 4.5],
  ])('shows at %s %d V, and follows its supply', (lever, shown) => {
    const reading = number(ask(sensor, volts('B1.signal', 'GND-1', { lever })));
    expect(reading.nominal).toBeCloseTo(shown, 9);
    expect(reading.low / reading.nominal).toBeCloseTo(0.9, 9);
    expect(reading.high / reading.nominal).toBeCloseTo(1.1, 9);
  });
});

describe('a loop of 4 to 20 mA over 250 Ω', () => {
  const loop = systemWith(
    'kind: current loop, follows: level, span: 4 mA .. 20 mA',
    '  - W3: G2.+ to B1.1\n  - W4: B1.2 to R1.1\n  - W5: R1.2 to GND-1',
  );

  // Linear between its ends: 4 + 16 (x - LRV) / (URV - LRV) mA; 1 V to 5 V over 250 Ω.
  it.each([
    ['0 m', 1],
    ['2 m', 3],
    ['4 m', 5],
  ])('drops at %s %d V', (level, shown) => {
    expect(number(ask(loop, volts('R1.1', 'R1.2', { level }))).nominal).toBeCloseTo(shown, 3);
  });

  it('carries nothing once it is apart', () => {
    expect(number(ask(loop, { ...volts('R1.1', 'R1.2', { level: '2 m' }), apart: ['B1'] })).nominal).toBeCloseTo(0, 9);
  });
});

describe('sensors of temperature', () => {
  const ohms = { measure: 'resistance', red: 'B1.1', black: 'B1.2' } as const;

  it('have the resistance of the condition that they follow', () => {
    const pt100 = systemWith('kind: rtd, follows: oil, curve: { standard: IEC 60751 Pt100 }', '  - W3: B1.1 to R1.1');
    expect(number(ask(pt100, ohms)).nominal).toBeCloseTo(109.73, 2);
    expect(number(ask(pt100, { ...ohms, set: { oil: '100 °C' } })).nominal).toBeCloseTo(138.51, 2);
    expect(number(ask(pt100, { ...ohms, set: { oil: '212 °F' } })).nominal).toBeCloseTo(138.51, 2);
    const ntc = systemWith(
      'kind: thermistor, follows: oil, curve: { beta: { at 25 °C: 10 kΩ ± 5 %, B: 3380 K } }',
      '  - W3: B1.1 to R1.1',
    );
    expect(number(ask(ntc, { ...ohms, set: { oil: '100 °C' } })).nominal).toBeCloseTo(1024, 0);
  });

  it('give the voltage of the difference to where they end', () => {
    const couple = systemWith('kind: thermocouple, follows: oil, curve: { standard: type K }', '  - W3: B1.2 to GND-1');
    // 100 °C against 25 °C: 4.096 mV - 1.000 mV (NIST ITS-90).
    const at = { ...volts('B1.1', 'GND-1', { oil: '100 °C' }), inputOhms: 10e6 };
    expect(number(ask(couple, at)).nominal).toBeCloseTo(3.096e-3, 6);
  });

  it('are measured in ohms while their ends are equally warm, and not on their own voltage', () => {
    const couple = systemWith(
      'kind: thermocouple, follows: oil, curve: { standard: type E }',
      '  - W3: B1.1 to R1.1\n  - W4: B1.2 to R1.2',
    );
    const over = { ...ohms, apart: ['R1'] };
    expect(number(ask(couple, over)).nominal).toBeCloseTo(5, 9);
    expect(ask(couple, { ...ohms, set: { oil: '100 °C' } })).toMatchObject({ state: 'live', supplies: ['B1'] });
  });

  it('have no reading beyond their curve', () => {
    const table = systemWith(
      'kind: thermistor, follows: oil, curve: { table: [{ at: 0 °C, is: 5.6 kΩ }, { at: 100 °C, is: 190 Ω }] }',
      '  - W3: B1.1 to R1.1',
    );
    expect(ask(table, { ...ohms, set: { oil: '150 °C' } })).toMatchObject({ state: 'not computed', parts: ['B1'] });
  });
});

describe('a condition with a number', () => {
  it.each([
    ['above 10 °C', 0],
    ['above 30 °C', 5],
  ])('is held against %s at rest', (test, shown) => {
    const hall = systemWith(
      `kind: hall sensor, on when: { oil: ${test} }`,
      '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1\n  - W5: G1.+ to R1.1\n  - W6: R1.2 to B1.signal',
    );
    expect(number(ask(hall, volts('B1.signal', 'GND-1', {}))).nominal).toBeCloseTo(shown, 9);
  });
});

describe('a hall sensor', () => {
  it('pulls its signal to ground while its test holds', () => {
    const hall = systemWith(
      'kind: hall sensor, on when: { gate: open }, on resistance: 50 Ω',
      '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1\n  - W5: G1.+ to R1.1\n  - W6: R1.2 to B1.signal',
    );
    expect(number(ask(hall, volts('B1.signal', 'GND-1', {}))).nominal).toBeCloseTo(5, 9);
    expect(number(ask(hall, volts('B1.signal', 'GND-1', { gate: 'open' }))).nominal).toBeCloseTo((5 * 50) / 300, 9);
  });
});

it('a thermocouple behind an end of a reading is told in volts', () => {
  const couple = systemWith('kind: thermocouple, follows: oil, curve: { standard: type K }', '  - W3: B1.2 to GND-1');
  const at = { ...volts('B1.1', 'GND-1', { oil: '100 °C' }), inputOhms: 10e6 };
  expect(number(ask(couple, at)).lowAt).toMatchObject([{ id: 'B1', kind: 'voltage' }]);
});
