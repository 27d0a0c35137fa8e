import { describe, expect, it } from 'vitest';
import { ask, number, systemOf } from './support.ts';

describe('a voltmeter loads what it measures', () => {
  // T. R. Kuphaldt, Lessons In Electric Circuits, Vol. I, ch. 8 "Voltmeter impact on measured circuit": 24 V over two resistors of
  // 250 MΩ reads 12 V with an ideal meter and 0.8889 V with one of 10 MΩ.
  const divider = systemOf(`
format: 1
system: divider
parts:
  G1: { kind: supply, voltage: 24 V }
  R1: { kind: resistor, resistance: 250 MΩ }
  R2: { kind: resistor, resistance: 250 MΩ }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to R1.1
  - W2: R1.2 to R2.1
  - W3: R2.2 to GND-1
  - W4: G1.- to GND-1
`);
  const across = { measure: 'voltage', red: 'R2.1', black: 'R2.2' } as const;

  it('reads the published value with 10 MΩ', () => {
    expect(number(ask(divider, across)).nominal).toBeCloseTo(0.8889, 4);
  });

  it('reads half of the supply with an ideal meter', () => {
    expect(number(ask(divider, { ...across, inputOhms: Number.POSITIVE_INFINITY })).nominal).toBeCloseTo(12, 9);
  });
});

describe('a relay and its load', () => {
  // A circuit simulator (ngspice 39.3) on the same circuit: coil 85 Ω on 12.6 V behind 0.02 + 0.0077 + 0.05 Ω sees 12.5028 V while the
  // load of 4 Ω behind 0.04 Ω sees 12.3863 V. Operate and release voltages: data sheet of a 12 V mini relay (operate <= 8 V, release
  // >= 1.5 V at 23 °C, xonelec.com).
  const relay = (volts: string) =>
    systemOf(`
format: 1
system: relay
conditions: { key: [off, run] }
parts:
  G1: { kind: battery, voltage: ${volts}, internal resistance: 20 mΩ }
  F1: { kind: fuse, rating: 10 A, resistance: 7.7 mΩ }
  S1: { kind: switch, closed: { key: run }, contact resistance: 0.05 Ω }
  K1: { kind: relay, coil: 85 Ω, pull-in: 8 V, drop-out: 1.5 V, contact resistance: 0.04 Ω }
  E1: { kind: resistor, resistance: 4 Ω }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to F1.1
  - W2: F1.2 to S1.1
  - W3: S1.2 to K1.86
  - W4: K1.85 to GND-1
  - W5: F1.2 to K1.30
  - W6: K1.87 to E1.1
  - W7: E1.2 to GND-1
  - W8: G1.- to GND-1
`);
  const load = { measure: 'voltage', red: 'E1.1', black: 'E1.2', inputOhms: Number.POSITIVE_INFINITY } as const;

  it('gives load and coil the voltages of the simulator', () => {
    const on = { set: { key: 'run' } };
    // The published run has the load in parallel behind the battery and fuse alone.
    const behind = 0.02 + 0.0077;
    const coil = 85 + 0.05;
    const loadPath = 4 + 0.04;
    const node = 12.6 / (1 + behind * (1 / coil + 1 / loadPath));
    expect(number(ask(relay('12.6 V'), { ...load, ...on })).nominal).toBeCloseTo((node * 4) / loadPath, 6);
  });

  it('leaves the load dead with the key off', () => {
    expect(number(ask(relay('12.6 V'), load))).toMatchObject({ low: 0, high: 0 });
  });

  it('does not pull in under its operate voltage', () => {
    expect(number(ask(relay('7 V'), { ...load, set: { key: 'run' } }))).toMatchObject({ low: 0, high: 0 });
  });

  it('may do either where the tolerances of the supply reach over the threshold', () => {
    const either = number(ask(relay('8 V ± 0.5 V'), { ...load, set: { key: 'run' } }));
    expect(either.low).toBe(0);
    expect(either.high).toBeGreaterThan(8);
    // The tolerance is cut at the threshold, so both ends belong to machines that can be named.
    expect(either.exact).toBe(true);
    expect(either.lowAt).toMatchObject([{ id: 'G1' }]);
  });
});

describe('resistor-coded switches on one wire', () => {
  // Common practice, no source: an idle path of 22.6 kΩ, a first button that adds 680 Ω to ground, another one a short to ground.
  const keypad = systemOf(`
format: 1
system: keypad
parts:
  S1: { kind: coded switches, idle: 22.6 kΩ, buttons: { set: 680 Ω, cancel: short } }
  A1: { kind: module, ground: 2, pins: { 1: { pull-up: { to: 5 V, through: 1 kΩ } }, 2: { name: ground } } }
  S2: { kind: coded switches, idle: 6.23 kΩ, buttons: { up: 3.3 kΩ } }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: S1.1 to A1.1
  - W2: S1.2 to GND-1
  - W3: A1.2 to GND-1
  - W4: S2.1 to GND-1
`);
  const sense = { measure: 'voltage', red: 'A1.1', black: 'A1.2', inputOhms: Number.POSITIVE_INFINITY } as const;
  const divided = (ohms: number) => (5 * ohms) / (1000 + ohms);

  it.each([
    ['idle', divided(22600)],
    ['set', divided((22600 * 680) / (22600 + 680))],
    ['cancel', 0],
  ])('%s', (state, volts) => {
    expect(number(ask(keypad, { ...sense, set: { S1: state } })).nominal).toBeCloseTo(volts, 9);
  });

  it('reads 3.3 kΩ in parallel with 6.23 kΩ', () => {
    const ohms = { measure: 'resistance', red: 'S2.1 (part side)', black: 'S2.2 (part side)', apart: ['S2'] } as const;
    expect(number(ask(keypad, { ...ohms, set: { S2: 'up' } })).nominal).toBeCloseTo((6230 * 3300) / 9530, 6);
    expect(number(ask(keypad, ohms)).nominal).toBeCloseTo(6230, 6);
  });
});

describe('a wire', () => {
  // A worked voltage drop with 12.7 mΩ/m for 1.5 mm² (road-vehicle cable): 4.17 A x 5 m gives 0.265 V, 2.21 % of 12 V
  // (midmarchartsbooks.org). The table value is a maximum, so the drop lies inside the range that the wire's size gives.
  it('drops what the worked example says', () => {
    const lamp = systemOf(`
format: 1
system: lamp
parts:
  G1: { kind: supply, voltage: 12 V }
  E1: { kind: resistor, resistance: 2.81 Ω }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to E1.1, 1.5 mm², 5 m
  - W2: E1.2 to GND-1
  - W3: G1.- to GND-1
`);
    const drop = number(ask(lamp, { measure: 'voltage drop', red: 'G1.+', black: 'E1.1' }));
    expect(drop.low).toBeLessThan(0.265);
    expect(drop.high).toBeGreaterThan(0.26);
  });
});

describe('a plug that is apart', () => {
  const lamp = systemOf(`
format: 1
system: lamp
parts:
  G1: { kind: battery, voltage: 12 V }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
connectors: { X1: { cavities: [1, 2] } }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to E1.1 through X1/1
  - W2: E1.2 to GND-1 through X1/2
  - W3: G1.- to GND-1
`);

  it('leaves the supply on its own half', () => {
    const live = { measure: 'voltage', red: 'X1/1 (G1 side)', black: 'GND-1', apart: ['X1'] } as const;
    expect(number(ask(lamp, live)).nominal).toBeCloseTo(12, 9);
  });

  it('lets the part be measured alone', () => {
    const part = { measure: 'resistance', red: 'X1/1 (E1 side)', black: 'X1/2 (E1 side)', apart: ['X1'] } as const;
    expect(number(ask(lamp, part))).toMatchObject({ nominal: 10, low: 9.5, exact: true });
  });

  it('has two points where one was', () => {
    expect(ask(lamp, { measure: 'voltage', red: 'X1/1', black: 'GND-1', apart: ['X1'] })).toMatchObject({
      state: 'no contact',
      reason: { kind: 'which side', sides: ['G1', 'E1'] },
    });
  });

  it('makes an ohmmeter read OL and a voltmeter float', () => {
    const apart = ['X1'];
    const across = { red: 'X1/1 (E1 side)', black: 'GND-1', apart };
    expect(ask(lamp, { measure: 'resistance', ...across })).toEqual({ state: 'over limit' });
    expect(ask(lamp, { measure: 'voltage', ...across })).toMatchObject({ state: 'floating' });
  });

  it('leaves the circuit live for an ohmmeter while it is together', () => {
    expect(ask(lamp, { measure: 'resistance', red: 'E1.1', black: 'E1.2' })).toEqual({
      state: 'live',
      supplies: ['G1'],
    });
  });
});
