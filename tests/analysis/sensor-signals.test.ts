import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { situation } from '../../server/src/analysis/situation.ts';
import type { SystemView } from '../../server/src/analysis/view.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { ask, lead, number, systemOf } from './support.ts';

const systemWith = (part: string, wires: string, parts = '') =>
  systemOf(`
format: 1
system: bench
conditions:
  lever: { from: 0 %, to: 100 %, rest: 50 % }
  level: { from: 0 m, to: 4 m, rest: 2 m }
  gate: [shut, open]
parts:
  G1: { kind: supply, voltage: 5 V }
  G2: { kind: supply, voltage: 24 V }
  R1: { kind: resistor, resistance: 250 Ω }
  B1: { ${part} }
${parts}
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.- to GND-1
  - W2: G2.- to GND-1
${wires}
`);
const ideal = Number.POSITIVE_INFINITY;
const volts = (red: string, black: string, set: Record<string, string> = {}) =>
  ({ measure: 'voltage', red, black, set, inputOhms: ideal }) as const;

/** What the voltmeter shows on a machine with the fault. */
function withFault(view: SystemView, id: string, red: string, set: Record<string, string> = {}): number {
  const circuit = view.circuit('standard');
  const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };
  const at = { measure: 'voltage', measurePlace: place, red: lead(red), black: lead('GND-1') } as const;
  const now = situation(new Map([...circuit.rest.states, ...Object.entries(set)]), new Set());
  const fault = faultsOf(view.system, 'standard').find(one => one.id === id);
  expect(fault, id).toBeDefined();
  return number(circuit.read(at, { ...handheldMeter, inputOhms: ideal }, now, effectOf(fault!))).nominal;
}

// Accuracy as a part of the span is how data sheets of such sensors state it: 2 % of 10 % to 90 % are 1.6 % of the supply either way.
describe('a ratiometric sensor with an accuracy', () => {
  const wires = '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1';
  const kind = 'kind: ratiometric sensor, follows: lever, span: 10 % .. 90 %';

  it.each([
    ['0 %', 0.42, 0.58],
    ['50 %', 2.42, 2.58],
    ['100 %', 4.42, 4.58],
  ])('shows at %s from %d V to %d V, and these ends are reached', (lever, low, high) => {
    const sensor = systemWith(`${kind}, accuracy: 2 %`, wires);
    const reading = number(ask(sensor, volts('B1.signal', 'GND-1', { lever })));
    expect([reading.low, reading.high]).toEqual([expect.closeTo(low, 9), expect.closeTo(high, 9)]);
    expect(reading.exact).toBe(true);
    expect(reading.lowAt.map(({ id }) => id).sort()).toEqual(['B1 from signal to ground', 'B1 from supply to signal']);
  });

  it('is no wider for a tolerance of its own resistance, which the ratio does not feel', () => {
    const sensor = systemWith(`${kind}, accuracy: 2 %, resistance: 1 kΩ ± 10 %`, wires);
    const { low, high, attained } = number(ask(sensor, volts('B1.signal', 'GND-1')));
    expect([attained.low, attained.high]).toEqual([expect.closeTo(2.42, 1), expect.closeTo(2.58, 1)]);
    expect([low, high]).toEqual([expect.closeTo(2.42, 1), expect.closeTo(2.58, 1)]);
    expect(low).toBeLessThanOrEqual(2.42);
    expect(high).toBeGreaterThanOrEqual(2.58);
  });

  it('never gives more than its supply', () => {
    const sensor = systemWith('kind: ratiometric sensor, follows: lever, span: 0 % .. 100 %, accuracy: 5 %', wires);
    expect(number(ask(sensor, volts('B1.signal', 'GND-1', { lever: '100 %' }))).high).toBeCloseTo(5, 9);
    expect(number(ask(sensor, volts('B1.signal', 'GND-1', { lever: '0 %' }))).low).toBeCloseTo(0, 9);
  });
});

it('a potentiometer is as wide as its linearity', () => {
  const pot = systemWith(
    'kind: potentiometer, follows: lever, resistance: 5 kΩ, accuracy: 1 %',
    '  - W3: G1.+ to B1.1\n  - W4: B1.3 to GND-1',
  );
  const { low, nominal, high, exact } = number(ask(pot, volts('B1.2', 'GND-1', { lever: '25 %' })));
  expect([low, nominal, high, exact]).toEqual([
    ...[expect.closeTo(3.7, 9), expect.closeTo(3.75, 9), expect.closeTo(3.8, 9)],
    true,
  ]);
});

describe('a loop with an accuracy', () => {
  const wires = '  - W3: G2.+ to B1.1\n  - W4: B1.2 to R1.1\n  - W5: R1.2 to GND-1';
  const loop = systemWith('kind: current loop, follows: level, span: 4 mA .. 20 mA, accuracy: 0.5 %', wires);

  // 0.5 % of 16 mA are 80 µA either way, 20 mV over 250 Ω, at every level alike.
  it.each([
    ['0 m', 0.98, 1.02],
    ['2 m', 2.98, 3.02],
    ['4 m', 4.98, 5.02],
  ])('drops at %s from %d V to %d V', (level, low, high) => {
    const reading = number(ask(loop, volts('R1.1', 'R1.2', { level })));
    expect([reading.low, reading.high]).toEqual([expect.closeTo(low, 3), expect.closeTo(high, 3)]);
    expect(reading.exact).toBe(true);
  });

  it('is named behind the ends by the current that it sets', () => {
    const { lowAt, highAt } = number(ask(loop, volts('R1.1', 'R1.2')));
    expect(lowAt).toMatchObject([{ id: 'B1', kind: 'current', value: expect.closeTo(11.92e-3, 9), end: 'low' }]);
    expect(highAt).toMatchObject([{ id: 'B1', kind: 'current', value: expect.closeTo(12.08e-3, 9), end: 'high' }]);
  });

  it('starts from nothing where its span does', () => {
    const dead = systemWith('kind: current loop, follows: level, span: 0 mA .. 20 mA, accuracy: 1 %', wires);
    const { low, nominal, high } = number(ask(dead, volts('R1.1', 'R1.2', { level: '0 m' })));
    expect([low, nominal, high]).toEqual([expect.closeTo(0, 6), expect.closeTo(0, 6), expect.closeTo(0.05, 5)]);
  });
});

describe('a sensor by a table', () => {
  it('goes straight from point to point, with the tolerance of each', () => {
    const tank = systemWith(
      'kind: current loop, follows: level, span: [{ at: 0 m, is: 4 mA }, { at: 1 m, is: 12 mA ± 0.2 mA }, { at: 4 m, is: 20 mA }]',
      '  - W3: G2.+ to B1.1\n  - W4: B1.2 to R1.1\n  - W5: R1.2 to GND-1',
    );
    const at = (level: string) => number(ask(tank, volts('R1.1', 'R1.2', { level })));
    expect(at('1 m').low).toBeCloseTo(2.95, 3);
    expect(at('1 m').high).toBeCloseTo(3.05, 3);
    expect(at('500 mm').nominal).toBeCloseTo(2, 3);
    expect(at('2.5 m').nominal).toBeCloseTo(4, 3);
  });

  it('may fall, as the share of a float does, and is off by its accuracy of the whole span', () => {
    const float = systemWith(
      'kind: ratiometric sensor, follows: lever, accuracy: 1 %, span: [{ at: 0 %, is: 90 % }, { at: 100 %, is: 10 % }]',
      '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1',
    );
    const { low, nominal, high } = number(ask(float, volts('B1.signal', 'GND-1', { lever: '25 %' })));
    expect([low, nominal, high]).toEqual([expect.closeTo(3.46, 9), expect.closeTo(3.5, 9), expect.closeTo(3.54, 9)]);
  });

  it('has no reading beyond its points', () => {
    const short = systemWith(
      'kind: ratiometric sensor, follows: level, span: [{ at: 0 m, is: 10 % }, { at: 1 m, is: 90 % }]',
      '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1',
    );
    expect(ask(short, volts('B1.signal', 'GND-1'))).toMatchObject({ state: 'not computed', parts: ['B1'] });
  });
});

it('a sensor has no value while what it follows is set to something that it is not', () => {
  const sensor = systemWith(
    'kind: ratiometric sensor, follows: lever, span: 10 % .. 90 %',
    '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1',
  );
  expect(ask(sensor, volts('B1.signal', 'GND-1', { lever: '5 V' }))).toMatchObject({ state: 'not computed' });
});

// 5 V ratiometric sensors work from 0.5 V to 4.5 V so that 0 V and 5 V show a wiring fault (electronics.stackexchange 657765); which of the
// two, by the test list gathered with it: with a pull-down an open signal and an open supply read low and an open ground reads high.
describe('a ratiometric sensor behind a pull-down, with a wire open', () => {
  const sensor = systemWith(
    'kind: ratiometric sensor, follows: lever, span: 10 % .. 90 %',
    '  - W3: G1.+ to B1.supply\n  - W4: B1.ground to GND-1\n  - W5: B1.signal to R2.1\n  - W6: R2.2 to GND-1',
    '  R2: { kind: resistor, resistance: 100 kΩ }',
  );

  it.each([
    ['W5 open', 'R2.1', 0],
    ['W3 open', 'R2.1', 0],
    ['B1 supply open', 'R2.1', 0],
    ['W4 open', 'R2.1', 5],
    ['B1 ground open', 'R2.1', 5],
    ['B1 signal shorted to supply', 'R2.1', 5],
    ['B1 signal shorted to ground', 'R2.1', 0],
    ['W5 short to ground', 'R2.1', 0],
  ])('%s: %s is at %d V', (fault, red, shown) => {
    expect(Math.abs(withFault(sensor, fault, red) - shown)).toBeLessThan(0.03);
  });

  it('follows a supply that sags', () => {
    expect(withFault(sensor, 'G1 low', 'R2.1')).toBeCloseTo(2, 1);
    expect(withFault(sensor, 'G1 dead', 'R2.1')).toBeCloseTo(0, 9);
  });
});

// NE 43: 3.8 mA to 20.5 mA is measured, below 3.6 mA and above 21 mA is a failure, which a broken wire and a short are.
describe('a loop of 4 to 20 mA by the bands of NE 43', () => {
  const loop = systemWith(
    'kind: current loop, follows: level, span: [{ at: 0 m, is: 3.8 mA }, { at: 4 m, is: 20.49 mA }]',
    '  - W3: G2.+ to B1.1\n  - W4: B1.2 to A1.1\n  - W5: A1.2 to GND-1',
    `  A1:
    kind: module
    ground: 2
    pins: { 1: { draws: 250 Ω }, 2: { name: ground } }
    scan data:
      level: { from: 1, states: { failed low: below 0.9 V, measuring: 0.95 V .. 5.125 V, failed high: above 5.25 V } }`,
  );
  const scanned = (id: string | undefined, level = '2 m') => {
    const circuit = loop.circuit('standard');
    const fault = faultsOf(loop.system, 'standard').find(one => one.id === id);
    const now = situation(new Map([...circuit.rest.states, ['level', level]]), new Set());
    return circuit.scan('A1', 'level', now, fault && effectOf(fault));
  };

  it('is measured from end to end', () => {
    expect([scanned(undefined, '0 m'), scanned(undefined), scanned(undefined, '4 m')]).toEqual(
      Array.from({ length: 3 }, () => 'measuring'),
    );
  });

  it.each([
    ['W3 open', 'failed low'],
    ['B1 open', 'failed low'],
    ['W4 open', 'failed low'],
    ['B1 shorted', 'failed high'],
    ['G2 dead', 'failed low'],
  ])('with %s it has %s', (fault, state) => {
    expect(scanned(fault)).toBe(state);
  });
});

describe('a hall sensor', () => {
  const part = 'kind: hall sensor, on when: { gate: open }, on resistance: 50 Ω';
  const wires =
    '  - W3: G1.+ to F1.1\n  - W6: F1.2 to B1.supply\n  - W4: B1.ground to GND-1\n  - W5: G2.+ to R1.1\n  - W7: R1.2 to B1.signal';
  const fuse = '  F1: { kind: fuse, rating: 1 A, resistance: 0.1 Ω }';
  const hall = systemWith(part, wires, fuse);
  const open = { gate: 'open' };

  it('switches while it has its supply', () => {
    expect(number(ask(hall, volts('B1.signal', 'GND-1', open))).nominal).toBeCloseTo(4, 9);
    expect(number(ask(hall, volts('B1.signal', 'GND-1'))).nominal).toBeCloseTo(24, 9);
  });

  it.each([
    'F1 blown',
    'W3 open',
    'W6 open',
    'B1 supply open',
    'W4 open',
    'B1 ground open',
    'W6 short to ground',
    'G1 dead',
  ])('lets go of its signal with %s', fault => {
    expect(withFault(hall, fault, 'R1.2', open)).toBeCloseTo(24, 6);
  });

  it('needs what its data sheet says, else 3.8 V', () => {
    const needing = (least: string) => systemWith(`${part}${least}`, wires, fuse);
    // A supply that sags to 80 % has 4 V left.
    expect(withFault(needing(''), 'G1 low', 'R1.2', open)).toBeCloseTo(4, 6);
    expect(withFault(needing(', least voltage: 4.5 V'), 'G1 low', 'R1.2', open)).toBeCloseTo(24, 6);
  });
});

it('a loop is computed beside a supply that is shorted, and beside two that contradict each other', () => {
  const view = systemWith(
    'kind: current loop, follows: level, span: 4 mA .. 20 mA',
    '  - W3: G2.+ to B1.1\n  - W4: B1.2 to R1.1\n  - W5: R1.2 to GND-1\n  - W6: G3.+ to G3.-\n  - W7: G4.+ to G5.+\n  - W8: G4.- to G5.-',
    '  G3: { kind: supply, voltage: 9 V }\n  G4: { kind: supply, voltage: 9 V }\n  G5: { kind: supply, voltage: 8 V }',
  );
  expect(number(ask(view, volts('R1.1', 'R1.2'))).nominal).toBeCloseTo(3, 3);
});
