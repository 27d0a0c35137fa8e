import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ask, number, type Question, systemOf } from './support.ts';

/** A battery of 12 V, a key, and the parts and wires of one test. */
const circuitOf = (parts: string, wires: string, volts = '12 V') =>
  systemOf(`
format: 1
system: bench
conditions: { key: [off, run], drum: [free, jammed] }
parts:
  G1: { kind: supply, voltage: ${volts} }
  S1: { kind: switch, closed: { key: run } }
${parts}
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to S1.1
  - W2: G1.- to GND-1
${wires}
`);
const on = { key: 'run' };
const volts = (red: string, black = 'GND-1', set: Question['set'] = on): Question => ({
  measure: 'voltage',
  red,
  black,
  set,
  inputOhms: Number.POSITIVE_INFINITY,
});
const ohms = (red: string, black: string): Question => ({ measure: 'resistance', red, black });

describe('a light-emitting diode behind its resistor', () => {
  // Ohm's law: 12 V less the drop of 1.8 V over 1 kΩ and the 5 Ω of the diode.
  const lit = circuitOf(
    '  R1: { kind: resistor, resistance: 995 Ω }\n  V1: { kind: led, forward voltage: 1.8 V ± 0.1 V }',
    '  - W3: S1.2 to R1.1\n  - W4: R1.2 to V1.A\n  - W5: V1.K to GND-1',
  );

  it('takes what is left of the supply', () => {
    const drop = number(ask(lit, volts('R1.1', 'R1.2')));
    expect(drop.nominal).toBeCloseTo(10.2 * 0.995, 9);
    expect(drop).toMatchObject({ exact: true });
    expect([drop.low, drop.high].map(v => v / 0.995)).toEqual([expect.closeTo(10.1, 9), expect.closeTo(10.3, 9)]);
  });

  it('takes less with more resistance of its own', () => {
    // 12 V less 1.8 V over 800 Ω and its own 200 Ω.
    const weak = circuitOf(
      '  R1: { kind: resistor, resistance: 800 Ω }\n  V1: { kind: led, forward voltage: 1.8 V, resistance: 200 Ω }',
      '  - W3: S1.2 to R1.1\n  - W4: R1.2 to V1.A\n  - W5: V1.K to GND-1',
    );
    expect(number(ask(weak, volts('R1.1', 'R1.2'))).nominal).toBeCloseTo(10.2 * 0.8, 9);
  });

  it('lets nothing through the other way round', () => {
    const turned = circuitOf(
      '  R1: { kind: resistor, resistance: 995 Ω }\n  V1: { kind: led, forward voltage: 1.8 V }',
      '  - W3: S1.2 to R1.1\n  - W4: R1.2 to V1.K\n  - W5: V1.A to GND-1',
    );
    expect(number(ask(turned, volts('R1.1', 'R1.2'))).nominal).toBeCloseTo(0, 9);
  });
});

describe('a zener diode that clamps', () => {
  const clamp = (supply: string) =>
    circuitOf(
      '  R1: { kind: resistor, resistance: 98 Ω }\n  V1: { kind: zener, zener voltage: 5.1 V }',
      '  - W3: S1.2 to R1.1\n  - W4: R1.2 to V1.K\n  - W5: V1.A to GND-1',
      supply,
    );

  it('holds its voltage, but for its own 2 Ω', () => {
    expect(number(ask(clamp('12 V'), volts('V1.K'))).nominal).toBeCloseTo(5.1 + 6.9 * 0.02, 9);
  });

  it('has a resistance in breakdown that may be stated', () => {
    const steep = circuitOf(
      '  R1: { kind: resistor, resistance: 90 Ω }\n  V1: { kind: zener, zener voltage: 5 V, resistance: 10 Ω }',
      '  - W3: S1.2 to R1.1\n  - W4: R1.2 to V1.K\n  - W5: V1.A to GND-1',
    );
    expect(number(ask(steep, volts('V1.K'))).nominal).toBeCloseTo(5 + 7 * 0.1, 9);
  });

  it('does nothing below it', () => {
    expect(number(ask(clamp('4 V'), volts('V1.K'))).nominal).toBeCloseTo(4, 6);
  });

  it('is open and conducting by turns where the supply reaches over it, and both ends are named', () => {
    const reading = number(ask(clamp('5 V ± 1 V'), volts('V1.K')));
    expect(reading.low).toBeCloseTo(4, 6);
    expect(reading).toMatchObject({ exact: true, attained: { high: expect.closeTo(5.1 + 0.9 * 0.02, 9) } });
    expect(reading.lowAt).toMatchObject([{ id: 'G1', value: 4 }]);
    expect(reading.highAt).toMatchObject([{ id: 'G1', value: 6 }]);
  });
});

describe('two diodes that feed one load', () => {
  it('let the higher supply through, less one drop', () => {
    const both = circuitOf(
      `  G2: { kind: supply, voltage: 14 V }
  V1: { kind: diode, forward voltage: 0.7 V }
  V2: { kind: diode, forward voltage: 0.7 V }
  R1: { kind: resistor, resistance: 99.95 Ω }`,
      '  - W3: S1.2 to V1.A\n  - W4: G2.+ to V2.A\n  - W5: G2.- to GND-1\n  - W6: V1.K to R1.1\n  - W7: V2.K to R1.1\n  - W8: R1.2 to GND-1',
    );
    expect(number(ask(both, volts('R1.1'))).nominal).toBeCloseTo(13.3 * 0.9995, 9);
  });
});

describe('a lamp', () => {
  // 21 W at 12 V: hot 6.86 Ω, cold a tenth to a fifteenth of it, 0.46 to 0.69 Ω (kfz-tech.de; physicsforums 885068).
  const lamp = circuitOf(
    '  E1: { kind: lamp, power: 21 W, voltage: 12 V }',
    '  - W3: S1.2 to E1.1\n  - W4: E1.2 to GND-1',
  );

  it('takes its rated current at its rated voltage', () => {
    const amps = number(ask(lamp, { measure: 'current', red: 'S1.1', black: 'S1.2', set: { key: 'off' } }));
    // The meter adds its burden of 10 mΩ.
    expect(amps.nominal).toBeCloseTo(21 / 12, 2);
  });

  it('is read cold by an ohmmeter', () => {
    const cold = number(
      ask(lamp, { ...ohms('E1.1', 'E1.2'), apart: ['E1'], red: 'E1.1 (part side)', black: 'E1.2 (part side)' }),
    );
    expect(cold.low).toBeCloseTo(12 ** 2 / 21 / 15, 2);
    // The leads may add 0.2 Ω.
    expect(cold.high).toBeCloseTo(12 ** 2 / 21 / 10 + 0.2, 2);
    expect(cold.lowAt).toMatchObject([{ id: 'E1 cold resistance', value: expect.closeTo(0.457, 3) }]);
  });
});

describe('a diode across the coil of a relay', () => {
  const relay = circuitOf(
    '  K1: { kind: relay, coil: 85 Ω, pull-in: 8 V, drop-out: 1.5 V, suppression: { diode: 86 to 85 } }',
    '  - W3: S1.2 to K1.85\n  - W4: K1.86 to GND-1\n  - W5: K1.30 to S1.2\n  - W6: K1.87 to GND-1, 100 Ω',
  );
  const apart = { apart: ['K1'] };

  it('blocks while the relay works', () => {
    expect(number(ask(relay, volts('K1.85'))).nominal).toBeCloseTo(12, 9);
  });

  it('is seen by an ohmmeter one way round only', () => {
    const read = (red: string, black: string) =>
      number(ask(relay, { ...ohms(`${red} (part side)`, `${black} (part side)`), ...apart }));
    expect(read('K1.85', 'K1.86').nominal).toBeCloseTo(85, 6);
    // 1 mA through 85 Ω are 85 mV, far below its 0.5 V, so the other way round the coil is read just the same.
    expect(read('K1.86', 'K1.85').nominal).toBeCloseTo(85, 6);
  });
});

describe('a transistor that switches a lamp to ground', () => {
  const driver = circuitOf(
    '  Q1: { kind: transistor, terminals: [B, C, E], saturation voltage: 0.2 V }\n  R1: { kind: resistor, resistance: 1 kΩ }\n  R2: { kind: resistor, resistance: 100 Ω }',
    '  - W3: S1.2 to R1.1\n  - W4: R1.2 to Q1.B\n  - W5: G1.+ to R2.1\n  - W6: R2.2 to Q1.C\n  - W7: Q1.E to GND-1',
  );

  it('leaves its saturation voltage while its base is fed', () => {
    expect(number(ask(driver, volts('Q1.C'))).nominal).toBeCloseTo(0.2 + (11.8 * 0.05) / 100.05, 6);
  });

  it('leaves more with more resistance of its own', () => {
    // 11.8 V over 98 Ω and its own 2 Ω.
    const weak = circuitOf(
      '  Q1: { kind: transistor, saturation resistance: 2 Ω }\n  R1: { kind: resistor, resistance: 1 kΩ }\n  R2: { kind: resistor, resistance: 98 Ω }',
      '  - W3: S1.2 to R1.1\n  - W4: R1.2 to Q1.B\n  - W5: G1.+ to R2.1\n  - W6: R2.2 to Q1.C\n  - W7: Q1.E to GND-1',
    );
    expect(number(ask(weak, volts('Q1.C'))).nominal).toBeCloseTo(0.2 + 11.8 * 0.02, 6);
  });

  it('leaves the supply while it is not', () => {
    expect(number(ask(driver, volts('Q1.C', 'GND-1', { key: 'off' }))).nominal).toBeCloseTo(12, 6);
  });
});

describe('a transistor whose base hangs on a divider', () => {
  // A silicon junction conducts from 0.5 V to 0.8 V on (Practical Electronics Handbook, 6th edition, ch. 5).
  const collector = (upper: number, lower: number) =>
    number(
      ask(
        circuitOf(
          `  Q1: { kind: transistor }\n  R1: { kind: resistor, resistance: ${upper} Ω }\n  R2: { kind: resistor, resistance: 100 Ω }\n  R3: { kind: resistor, resistance: ${lower} Ω }`,
          '  - W3: S1.2 to R1.1\n  - W4: R1.2 to Q1.B\n  - W5: G1.+ to R2.1\n  - W6: R2.2 to Q1.C\n  - W7: Q1.E to GND-1\n  - W8: R3.1 to Q1.B\n  - W9: R3.2 to GND-1',
        ),
        volts('Q1.C'),
      ),
    );
  const saturated = 0.2 + (11.8 * 0.05) / 100.05;

  it('is off while no current can flow through it', () => {
    // 12 V · 47 / 1200 = 0.47 V, below any junction.
    expect(collector(1153, 47)).toMatchObject({ low: expect.closeTo(12, 6), high: expect.closeTo(12, 6) });
  });

  it('is on while current surely flows', () => {
    // 12 V · 90 / 1200 = 0.9 V without the base, above any junction.
    const reading = collector(1110, 90);
    expect([reading.low, reading.high]).toEqual([expect.closeTo(saturated, 6), expect.closeTo(saturated, 6)]);
  });

  it('may be either in between, and as its usual 0.7 V says at nominal values', () => {
    // 12 V · 60 / 1200 = 0.6 V.
    const reading = collector(1140, 60);
    expect([reading.low, reading.nominal, reading.high]).toEqual([
      expect.closeTo(saturated, 6),
      expect.closeTo(12, 6),
      expect.closeTo(12, 6),
    ]);
  });
});

describe('a motor', () => {
  const motor = circuitOf(
    '  M1: { kind: motor, resistance: 0.8 Ω, running: { voltage: 12 V, current: 4 A }, stalled when: { drum: jammed } }\n  R1: { kind: resistor, resistance: 100 mΩ }',
    '  - W3: S1.2 to R1.1\n  - W4: R1.2 to M1.1\n  - W5: M1.2 to GND-1',
    '12.4 V',
  );

  it('takes its running current while it turns', () => {
    expect(number(ask(motor, volts('R1.1', 'R1.2'))).nominal).toBeCloseTo(0.4, 6);
  });

  it('takes what its winding lets through while it is held fast', () => {
    expect(number(ask(motor, volts('R1.1', 'R1.2', { ...on, drum: 'jammed' }))).nominal).toBeCloseTo(12.4 / 9, 9);
  });
});

describe('a part that is given as a table', () => {
  it('takes the current of the table, straight between its points', () => {
    const table = circuitOf(
      '  Z1: { kind: two-terminal, table: [{ at: 0 V, is: 0 A }, { at: 10 V, is: 1 A }, { at: 14 V, is: 3 A }] }\n  R1: { kind: resistor, resistance: 1 mΩ }',
      '  - W3: S1.2 to R1.1\n  - W4: R1.2 to Z1.1\n  - W5: Z1.2 to GND-1',
    );
    expect(number(ask(table, volts('R1.1', 'R1.2'))).nominal).toBeCloseTo(2e-3, 5);
  });
});

describe('values that a part cannot have', () => {
  const withPart = (part: string) =>
    circuitOf(
      `  Z1: ${part}\n  R1: { kind: resistor, resistance: 1 Ω }\n  R2: { kind: resistor, resistance: 3 Ω }\n  R3: { kind: resistor, resistance: 1 Ω }`,
      '  - W3: S1.2 to R1.1\n  - W4: R1.2 to R2.1\n  - W5: R2.2 to GND-1\n  - W6: S1.2 to R3.1\n  - W7: R3.2 to Z1.1\n  - W8: Z1.2 to GND-1',
    );

  it.each([
    '{ kind: zener, zener voltage: -5 V, terminals: [1, 2] }',
    '{ kind: heater, resistance: 0 Ω }',
    '{ kind: lamp, power: 0 W, voltage: 12 V }',
    '{ kind: lamp, power: 24 W, voltage: 12 V, cold resistance: 6 Ω }',
    '{ kind: motor, resistance: 3 Ω, running: { voltage: 12 V, current: 5 A } }',
    '{ kind: two-terminal, table: [{ at: 0 V, is: 1 A }, { at: 5 V, is: 2 A }] }',
  ])('leave %s not computed, and all that does not hang on it as it is', part => {
    const view = withPart(part);
    expect(ask(view, volts('Z1.1')).state).toBe('not computed');
    // Half of the divider of 1 Ω and 3 Ω.
    expect(number(ask(view, volts('R2.1'))).nominal).toBeCloseTo(9, 9);
  });

  it('never get beyond the reader, whatever a table says', () => {
    const point = fc.record({ at: fc.integer({ min: -3, max: 20 }), is: fc.integer({ min: -3, max: 6 }) });
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 4 }), points => {
        const table = points.map(({ at, is }) => `{ at: ${at} V, is: ${is} A }`).join(', ');
        const reading = ask(withPart(`{ kind: two-terminal, table: [${table}] }`), volts('Z1.1'));
        if (reading.state === 'not computed') return;
        const { low, nominal, high } = number(reading);
        // 12 V over R3 and the part: it takes current and gives none.
        expect(low).toBeGreaterThanOrEqual(-1e-9);
        expect(nominal).toBeLessThanOrEqual(12 + 1e-9);
        expect(high).toBeLessThanOrEqual(12 + 1e-9);
      }),
    );
  });
});

describe('two terminating resistors of 120 Ω', () => {
  it('read 60 Ω between the lines of the bus, and 120 Ω with one of them away', () => {
    // ISO 11898-2: the bus is terminated by 120 Ω at either end.
    const bus = circuitOf(
      '  R1: { kind: resistor, resistance: 120 Ω ± 1 % }\n  R2: { kind: resistor, resistance: 120 Ω ± 1 % }',
      '  - W3: R1.1 to R2.1\n  - W4: R1.2 to R2.2\n  - W5: S1.2 to GND-1, 10 Ω',
    );
    expect(number(ask(bus, ohms('R1.1', 'R1.2'))).nominal).toBeCloseTo(60, 9);
    const alone = ask(bus, { ...ohms('R2.1 (part side)', 'R2.2 (part side)'), apart: ['R2'] });
    expect(number(alone).nominal).toBeCloseTo(120, 9);
  });
});

describe('an output that is off', () => {
  it('leaks into an open line', () => {
    const leaky = circuitOf(
      '  A1: { kind: module, pins: { 1: { name: feed }, 2: { name: drive, output: high side, feed: 1, on resistance: 80 mΩ, off leakage: 1 mA } } }\n  R1: { kind: resistor, resistance: 1 kΩ }',
      '  - W3: S1.2 to A1.1\n  - W4: A1.2 to R1.1\n  - W5: R1.2 to GND-1',
    );
    // 1 mA through 1 kΩ.
    expect(number(ask(leaky, volts('R1.1'))).nominal).toBeCloseTo(1, 1);
  });
});

describe('a wire of 100 m with 1.5 mm²', () => {
  const most = (built: string) => {
    const wire = circuitOf('  R1: { kind: resistor, resistance: 1 Ω }', `  - W3: S1.2 to R1.1, 1.5 mm², 100 m${built}`);
    return number(ask(wire, ohms('S1.2', 'R1.1'))).high;
  };

  it('has at most 1.33 Ω, and 1.21 Ω where it is solid', () => {
    // IEC 60228:2004, largest resistance at 20 °C: 13.3 Ω/km in class 5, 12.1 Ω/km in class 1 and 2. The leads may add 0.2 Ω.
    expect(most('')).toBeCloseTo(1.33 + 0.2, 9);
    expect(most(', stranded')).toBeCloseTo(1.33 + 0.2, 9);
    expect(most(', solid')).toBeCloseTo(1.21 + 0.2, 9);
  });
});
