import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { situation } from '../../server/src/analysis/situation.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { ask, lead, number, systemOf } from '../analysis/support.ts';

/**
 * What meters and inputs see, by published figures: loading, the bands of sensor signals. The meters themselves - ranges, accuracy,
 * burden, test current, continuity - are in `tests/analysis/meters.test.ts`, with their sources.
 */
const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

describe('a voltmeter takes -100 Rs / (Rs + Ri) % from what it measures', () => {
  // The formula of two bench-meter manuals (34970A, p. 357; DM3068, p. 142). 10 MΩ: Lessons In Electric Circuits, vol. I, ch. 8, and
  // University Physics Volume 2 (OpenStax), 10.4, which has 10 GΩ for precise ones; 5 MΩ: millivolt range, XDM2041 manual.
  it.each([
    [1e3, 10e6],
    [100e3, 10e6],
    [1e6, 10e6],
    [100e3, 10e9],
    [100e3, 5e6],
  ])('behind %d Ω with %d Ω', (source, inside) => {
    const view = systemOf(`
format: 1
system: one
parts:
  G1: { kind: supply, voltage: 5 V }
  R1: { kind: resistor, resistance: ${source} Ω }
wires: [W1: G1.+ to R1.1]
`);
    const shown = number(ask(view, { measure: 'voltage', red: 'R1.2', black: 'G1.-', inputOhms: inside })).nominal;
    expect(100 * (shown / 5 - 1)).toBeCloseTo((-100 * source) / (source + inside), 9);
  });
});

describe('a current signal by the bands of NE 43', () => {
  // NAMUR NE 43 as several repositories quote it (the recommendation itself not seen): 3.8 mA to 20.5 mA is measured, under 3.6 mA and
  // over 21 mA is a failure. The currents are those of a test in one of them; 250 Ω make 1 V of 4 mA.
  const bands = [
    'failure low: below 0.9 V',
    'saturated low: 0.9 V .. 0.94999 V',
    'measured: 0.95 V .. 5.125 V',
    'saturated high: 5.12501 V .. 5.25 V',
    'failure high: above 5.25 V',
  ].join(', ');
  it.each([
    [3.5, 'failure low'],
    [3.7, 'saturated low'],
    [12, 'measured'],
    [20.8, 'saturated high'],
    [21.5, 'failure high'],
  ])('%d mA is %s', (milliamps, state) => {
    const view = systemOf(`
format: 1
system: one
conditions: { level: { from: 0 %, to: 100 %, rest: 0 % } }
parts:
  G1: { kind: supply, voltage: 24 V }
  B1: { kind: current loop, follows: level, span: ${milliamps} mA .. ${milliamps + 1} mA }
  A1:
    kind: module
    ground: 2
    pins: { 1: { draws: 250 Ω }, 2: { name: ground } }
    scan data: { level: { from: 1, states: { ${bands} } } }
wires: [W1: G1.+ to B1.1, W2: B1.2 to A1.1, W3: A1.2 to G1.-]
`);
    const circuit = view.circuit('standard');
    expect(circuit.scan('A1', 'level', circuit.rest)).toBe(state);
  });

  it('half of the span is 12 mA', () => {
    // 4 + 16 (x - LRV) / (URV - LRV) mA, the same sources.
    const view = systemOf(`
format: 1
system: one
conditions: { level: { from: 0 %, to: 100 %, rest: 50 % } }
parts:
  G1: { kind: supply, voltage: 24 V }
  B1: { kind: current loop, follows: level, span: 4 mA .. 20 mA }
  R1: { kind: resistor, resistance: 250 Ω }
wires: [W1: G1.+ to B1.1, W2: B1.2 to R1.1, W3: R1.2 to G1.-]
`);
    expect(number(ask(view, { measure: 'voltage', red: 'R1.1', black: 'R1.2' })).nominal / 250).toBeCloseTo(0.012, 5);
  });
});

describe('a sensor of 5 V that divides its supply', () => {
  // A sensor interface (A17700, in a distributor's training text) takes under 4 % and over 96 % of its supply, 0.2 V and 4.8 V, for a
  // wiring fault, and 4 to 10 % and 90 to 96 % for beyond the range; 10 % to 90 % is the working span.
  const system = (pull: string) => {
    const view = systemOf(`
format: 1
system: one
conditions: { lever: { from: 0 %, to: 100 %, rest: 0 % } }
parts:
  G1: { kind: supply, voltage: 5 V }
  B1: { kind: ratiometric sensor, follows: lever, span: 10 % .. 90 % }
  A1: { kind: module, ground: 2, pins: { 1: { ${pull} }, 2: { name: ground } } }
grounds: { GND-1: Frame }
wires:
  - W1: G1.+ to B1.supply
  - W2: B1.ground to GND-1
  - W3: B1.signal to A1.1
  - W4: A1.2 to GND-1
  - W5: G1.- to GND-1
`);
    const circuit = view.circuit('standard');
    return (fault?: string, lever = '0 %') => {
      const found = faultsOf(view.system, 'standard').find(({ id }) => id === fault);
      if (fault && !found) throw new Error(`there is no fault ${fault}`);
      const at = { measure: 'voltage', measurePlace: place, red: lead('A1.1'), black: lead('A1.2') } as const;
      const now = situation(new Map([...circuit.rest.states, ['lever', lever]]), new Set());
      const meter = { ...handheldMeter, inputOhms: Number.POSITIVE_INFINITY };
      return number(circuit.read(at, meter, now, found && effectOf(found))).nominal;
    };
  };
  const pulledDown = system('pull-down: { through: 470 kΩ }');
  const pulledUp = system('pull-up: { to: 5 V, through: 470 kΩ }');

  it.each([pulledDown, pulledUp])('is in its span while it is whole', volts => {
    for (const lever of ['0 %', '50 %', '100 %']) {
      expect(volts(undefined, lever)).toBeGreaterThan(0.499);
      expect(volts(undefined, lever)).toBeLessThan(4.501);
    }
  });

  it.each([
    ['signal open', 'W3 open', 'low', 'high'],
    ['supply open', 'W1 open', 'low', undefined],
    ['ground open', 'W2 open', 'high', 'high'],
    ['signal to ground', 'W3 short to ground', 'low', 'low'],
    ['signal to supply', 'W3 short to supply', 'high', 'high'],
  ])('%s: %s is beyond 4 %% or 96 %%', (_, fault, down, up) => {
    const side = (volts: number) => (volts < 0.2 ? 'low' : volts > 4.8 ? 'high' : 'between');
    expect(side(pulledDown(fault))).toBe(down);
    if (up) expect(side(pulledUp(fault))).toBe(up);
  });

  it('an open signal and one on the supply read the same with a pull-up, not with a pull-down', () => {
    // The same text: they cannot be told apart.
    expect(pulledUp('W3 open')).toBeCloseTo(pulledUp('W3 short to supply'), 2);
    expect(Math.abs(pulledDown('W3 open') - pulledDown('W3 short to supply'))).toBeGreaterThan(4.8);
  });
});
