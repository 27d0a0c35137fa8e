import { describe, expect, it } from 'vitest';
import { limitAround } from '../../server/src/analysis/limit-around.ts';
import { displayed, errorAt } from '../../server/src/analysis/meter-display.ts';
import { tellsApart } from '../../server/src/analysis/values/meter.ts';
import type { Meter } from '../../server/src/model/meter.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeasureKind } from '../../server/src/model/step.ts';
import { verdictOf } from '../../server/src/rules/circuit/judged.ts';
import { endOf, rangeOf } from '../../server/src/rules/circuit/range-words.ts';
import { ask, lead, number, procedureOf, systemOf } from './support.ts';

const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

function meterOf(text: string): Meter {
  return procedureOf('', `format: 1\nprocedure: some\nmeter: ${text}\n`).procedure.meter;
}

describe('what a display shows', () => {
  it('has the digits of the range that it chooses', () => {
    // 6,000 counts on ranges of 6, 60 and 600 V (common practice, no source).
    expect(displayed(1.23456, 'voltage', handheldMeter).text).toBe('1.235 V');
    expect(displayed(12.3456, 'voltage', handheldMeter).text).toBe('12.35 V');
    expect(displayed(123.456, 'voltage', handheldMeter).text).toBe('123.5 V');
    expect(displayed(1e9, 'resistance', handheldMeter).text).toBe('OL');
    expect(displayed(-0.0001, 'voltage', handheldMeter).value).toBe(0);
  });

  it('is wrong by a share of the reading and counts of the last digit', () => {
    // ± (0.5 % + 2): at 12 V 60 mV and two steps of 10 mV. The sum is how data sheets define it.
    expect(errorAt(12, handheldMeter.voltage)).toBeCloseTo(0.08, 12);
  });

  it('compounds: 1 % of current and 1 % of voltage are up to 2 % of resistance', () => {
    // T. R. Kuphaldt, Lessons In Electric Circuits, Vol. I, ch. 8, on Kelvin resistance measurement.
    const meter = meterOf(
      '{ voltage: { resolution: 0.001 mV, accuracy: 1 % }, current: { resolution: 0.001 mA, accuracy: 1 % } }',
    );
    const [volts, amps] = [10, 2];
    const [wrongV, wrongA] = [errorAt(volts, meter.voltage), errorAt(amps, meter.current)];
    const ohms = volts / amps;
    expect((volts + wrongV) / (amps - wrongA) / ohms - 1).toBeCloseTo(0.02, 3);
    expect(1 - (volts - wrongV) / (amps + wrongA) / ohms).toBeCloseTo(0.02, 3);
  });

  it('goes by what the procedure says of its meter', () => {
    const meter = meterOf(
      '{ voltage: { ranges: [2 V, 20 V], resolution: 1 mV }, resistance: { ranges: [200 Ω, 2 kΩ] } }',
    );
    expect(displayed(12.3456, 'voltage', meter).text).toBe('12.35 V');
    expect(displayed(25, 'voltage', meter).text).toBe('OL');
    expect(meter.resistance.overLimitOhms).toBe(2000);
    expect(displayed(3.21987, 'voltage', meterOf('{ voltage: { resolution: 0.1 V } }')).text).toBe('3.2 V');
  });
});

describe('the burden of an ammeter', () => {
  // T. R. Kuphaldt, Lessons In Electric Circuits, Vol. I, ch. 8, "Ammeter impact on measured circuit": 2 V over 3 Ω and 1.5 Ω in
  // parallel; with a meter of 0.5 Ω in the one branch 571.43 mA instead of 666.7 mA, in the other 1 A instead of 1.333 A.
  const circuit = systemOf(`
format: 1
system: some
parts:
  G1: { kind: supply, voltage: 2 V }
  R1: { kind: resistor, resistance: 3 Ω }
  R2: { kind: resistor, resistance: 1.5 Ω }
wires:
  - W1: G1.+ to R1.1
  - W2: G1.+ to R2.1
`);
  const through = (red: string, meter: Meter) => read(circuit, 'current', red, 'G1.-', meter);

  it('lowers the current as published', () => {
    const meter = meterOf('{ current: { burden: 0.5 Ω } }');
    expect(number(through('R1.2', meter)).nominal).toBeCloseTo(0.57143, 5);
    expect(number(through('R2.2', meter)).nominal).toBeCloseTo(1, 9);
  });

  it('is that of the lowest range which holds the current', () => {
    const meter = meterOf('{ current: { ranges: [600 mA, 10 A], burden: [0.5 Ω, 0.01 Ω] } }');
    // 2 V / 3.01 Ω is above 600 mA, so the meter would stay in the upper range; one of 800 mA goes down to it.
    expect(number(through('R1.2', meter)).nominal).toBeCloseTo(2 / 3.01, 9);
    const wider = meterOf('{ current: { ranges: [800 mA, 10 A], burden: [0.5 Ω, 0.01 Ω] } }');
    expect(number(through('R1.2', wider)).nominal).toBeCloseTo(2 / 3.5, 9);
    expect(through('R1.2', meterOf('{ current: { ranges: [100 mA] } }')).state).toBe('over limit');
  });
});

describe('the test current of an ohmmeter', () => {
  // A silicon junction drops 0.6 V to 0.7 V at the 1 mA of a diode test with 1.5 V, and 0.5 V of a continuity test do not open it: the
  // two pairs are from the manual of a handheld meter, p. 31 (seen); the drop is common practice, no source.
  const diode = systemOf(`
format: 1
system: some
parts: { V1: { kind: diode, forward voltage: 0.6 V } }
`);

  it('opens a diode with 1.5 V and not with 0.5 V', () => {
    const ohms = number(read(diode, 'resistance', 'V1.A', 'V1.K', handheldMeter)).nominal;
    const volts = (ohms * 1.5) / (ohms + 1500);
    expect(volts).toBeGreaterThan(0.55);
    expect(volts).toBeLessThan(0.7);
    expect(read(diode, 'resistance', 'V1.K', 'V1.A', handheldMeter).state).toBe('over limit');
    expect(read(diode, 'continuity', 'V1.A', 'V1.K', handheldMeter)).toMatchObject({
      state: 'over limit',
      shows: ['silent'],
    });
    const low = meterOf('{ resistance: { open voltage: 0.4 V } }');
    expect(read(diode, 'resistance', 'V1.A', 'V1.K', low).state).toBe('over limit');
  });

  it('may leave it to the tolerance of a diode whether the meter shows a number', () => {
    // 1.5 V behind 1.5 kΩ opens a diode of 1.44 V and none of 1.6 V: from 1.5 kΩ * 1.44 V / (1.5 V - 1.44 V) = 36 kΩ to no path at all, by hand.
    const doubtful = systemOf(`
format: 1
system: some
parts: { V1: { kind: diode, forward voltage: 1.6 V ± 10 % } }
`);
    const reading = number(read(doubtful, 'resistance', 'V1.A', 'V1.K', handheldMeter));
    expect(reading.low / 36e3).toBeCloseTo(1, 2);
    expect([reading.nominal, reading.high]).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
    expect(reading.attained.high).toBe(Number.POSITIVE_INFINITY);

    // A good machine may show `OL`, so limits that hold it let `OL` pass, and others do not.
    const limit = limitAround([reading], 0.02, 'resistance', handheldMeter);
    expect(limit).toMatchObject({ high: Number.POSITIVE_INFINITY, overLimit: true });
    expect(limit.low).toBeLessThan(36e3);
    expect(verdictOf(reading, limit)).toBe('passes');
    const within = { ...limit, high: 50e3, overLimit: false };
    expect(verdictOf(reading, within)).toBe('can fail');
    expect([endOf(reading, 'high'), rangeOf(reading)]).toEqual([
      'OL',
      expect.stringMatching(/^at least 3\d(\.\d+)? kΩ$/),
    ]);
    expect(tellsApart(reading, { ...reading, nominal: 40e3, high: 50e3 })).toBe(true);
    expect(tellsApart(reading, reading)).toBe(false);
  });

  it('is that of the range which holds the reading', () => {
    // At 1 mA the junction reads 1 kΩ, over the first range; in the second one 0.1 mA flows, and it reads ten times as much.
    const meter = meterOf(
      '{ resistance: { ranges: [600 Ω, 60 kΩ], open voltage: 1.5 V, test current: [1 mA, 100 µA] } }',
    );
    const ohms = number(read(diode, 'resistance', 'V1.A', 'V1.K', meter)).nominal;
    expect((ohms * 1.5) / (ohms + 15_000)).toBeCloseTo(0.6, 1);
    expect(ohms).toBeGreaterThan(8_000);
  });
});

describe('a test lamp', () => {
  const lampOver = (through: string) =>
    systemOf(`
format: 1
system: some
parts:
  G1: { kind: supply, voltage: 12 V }
  R1: { kind: resistor, resistance: ${through} }
  R9: { kind: resistor, resistance: 1 MΩ }
wires:
  - W1: G1.+ to R1.1
`);
  const seen = (ohms: string, red = 'R1.2') =>
    number(ask(lampOver(ohms), { measure: 'test lamp', red, black: 'G1.-' }));

  it('is a load: it divides the voltage with what is in line', () => {
    // 48 Ω behind 48 Ω at 12 V, by the voltage divider.
    expect(seen('48 Ω').nominal).toBeCloseTo(6, 9);
    expect(seen('48 Ω').shows).toEqual(['dim']);
  });

  it('is lit by a good wire, dark behind what a voltmeter would not notice', () => {
    expect(seen('0.1 Ω').shows).toEqual(['lit']);
    expect(seen('10 kΩ').shows).toEqual(['dark']);
    expect(number(ask(lampOver('10 kΩ'), { measure: 'voltage', red: 'R1.2', black: 'G1.-' })).nominal).toBeCloseTo(
      11.988,
      3,
    );
  });

  it('is dark at a point that touches nothing', () => {
    expect(seen('1 Ω', 'R9.1').shows).toEqual(['dark']);
  });

  it('may be either where the tolerances reach over a threshold, the nominal one first', () => {
    // 12 V * 48 / (48 + 20) is 8.47 V; with 29 Ω it is 7.48 V, under the 8 V from which it is lit.
    expect(seen('20 Ω .. 29 Ω').shows).toHaveLength(2);
    expect(seen('24 Ω ± 30 %').shows).toEqual(['lit', 'dim']);
  });
});

describe('a continuity test', () => {
  const resistor = (ohms: string) =>
    systemOf(`\nformat: 1\nsystem: some\nparts: { R1: { kind: resistor, resistance: ${ohms} } }\n`);
  const heard = (ohms: string) => ask(resistor(ohms), { measure: 'continuity', red: 'R1.1', black: 'R1.2' });

  it('beeps below 50 Ω', () => {
    // The threshold is from the manual of a handheld meter, p. 31 (seen).
    expect(heard('49 Ω')).toMatchObject({ shows: ['beeps'] });
    expect(heard('51 Ω')).toMatchObject({ shows: ['silent'] });
    expect(heard('50 Ω ± 10 %')).toMatchObject({ shows: ['silent', 'beeps'] });
  });
});

describe('parallel paths', () => {
  // Two resistances in parallel: R1 R2 / (R1 + R2). DOE-HDBK-1011/1-92, Module 2, p. 36 (fig. 28): 8 Ω beside 24 Ω read 6 Ω.
  const pair = systemOf(`
format: 1
system: some
parts:
  R1: { kind: resistor, resistance: 8 Ω }
  K3: { kind: relay, coil: 24 Ω, pull-in: 8 V, drop-out: 1.5 V }
  S1: { kind: switch, positions: [open, shut], closed: shut }
wires:
  - W1: R1.1 to K3.85
  - W2: R1.2 to K3.86
  - W3: S1.1 to K3.85
  - W4: S1.2 to K3.86
`);
  const circuit = pair.circuit(pair.system.variants[0]!);
  const path = (red: string, black: string, apart: string[] = []) =>
    circuit.parallel(
      { measure: 'resistance', measurePlace: place, red: lead(red), black: lead(black) },
      circuit.become(circuit.rest, circuit.rest.states, new Set(apart)),
    );

  it('names the part that shunts the one under the leads', () => {
    const found = path('R1.1', 'R1.2')!;
    expect(found).toMatchObject({ meant: 'R1', through: ["K3's coil"] });
    expect(found.ohms).toBeCloseTo(6, 9);
    expect(found.aloneOhms).toBeCloseTo(8, 9);
  });

  it('has none where the plug of the part is off', () => {
    expect(path('R1.1 (part side)', 'R1.2 (part side)', ['R1'])).toBeUndefined();
  });

  it('has none where the leads are in the half of the plug that leads away from the part', () => {
    expect(path('R1.1 (harness side)', 'R1.2 (harness side)', ['R1'])?.meant).not.toBe('R1');
  });

  it('tells that an open switch reads through what lies beside it', () => {
    expect(path('S1.1', 'S1.2')).toMatchObject({ meant: 'S1', aloneOhms: Number.POSITIVE_INFINITY });
  });
});

describe('a point that is tied down by the meter alone', () => {
  // T. R. Kuphaldt, Lessons In Electric Circuits, Vol. I, ch. 8, "Voltmeter impact on measured circuit": a meter of 10 MΩ at 24 V over
  // twice 250 MΩ shows 0.8889 V instead of 12 V.
  const divider = systemOf(`
format: 1
system: some
parts:
  G1: { kind: supply, voltage: 24 V }
  R1: { kind: resistor, resistance: 250 MΩ }
  R2: { kind: resistor, resistance: 250 MΩ }
wires:
  - W1: G1.+ to R1.1
  - W2: R1.2 to R2.1
  - W3: R2.2 to G1.-
`);
  const at = (more: object) => ask(divider, { measure: 'voltage', red: 'R1.2', black: 'G1.-', ...more });

  it('shows what the meter leaves of it', () => {
    expect(number(at({})).nominal).toBeCloseTo(0.8889, 4);
    // Without R2 the meter is the only way to the other lead: 24 V * 10 / 260, by the divider.
    expect(number(at({ apart: ['R2'] })).nominal).toBeCloseTo(24 / 26, 9);
  });

  it('shows 1 % less of 5 V behind 0.1 MΩ', () => {
    // The loading error -100 Rs / (Rs + Ri) % of bench-meter manuals; 4.9505 V is recomputed from it.
    const behind = systemOf(`
format: 1
system: some
parts:
  G1: { kind: supply, voltage: 5 V }
  R1: { kind: resistor, resistance: 100 kΩ }
wires:
  - W1: G1.+ to R1.1
`);
    const volts = number(ask(behind, { measure: 'voltage', red: 'R1.2', black: 'G1.-' })).nominal;
    expect(volts).toBeCloseTo(4.9505, 4);
    expect(displayed(volts, 'voltage', handheldMeter).text).toBe('4.95 V');
  });

  it('is not held up by parts that block', () => {
    // A diode that blocks lets nothing through (common practice, no source), so nothing but the meter ties the point down.
    const blocked = systemOf(`
format: 1
system: some
parts:
  G1: { kind: supply, voltage: 18 V }
  V1: { kind: diode, forward voltage: 0.7 V ± 20 %, resistance: 1 Ω }
  V2: { kind: zener, forward voltage: 0.67 V ± 9 %, zener voltage: 5.1 V, resistance: 4 Ω }
wires:
  - W1: G1.+ to V1.K
  - W2: V1.A to V2.A
  - W3: V2.K to G1.-
`);
    expect(ask(blocked, { measure: 'voltage', red: 'V1.A', black: 'G1.-' }).state).toBe('floating');
  });

  it('is divided before a zener diode opens', () => {
    // The divider: 12 V * 10 MΩ / 30 MΩ = 4 V, below the 5.1 V at which the diode would hold it.
    const behind = systemOf(`
format: 1
system: some
parts:
  G1: { kind: supply, voltage: 12 V ± 10 % }
  R1: { kind: resistor, resistance: 20 MΩ }
  V1: { kind: zener, zener voltage: 5.1 V ± 5 %, resistance: 4 Ω }
wires:
  - W1: G1.+ to R1.1
  - W2: R1.2 to V1.K
  - W3: V1.A to G1.-
`);
    const { low, nominal, high } = number(ask(behind, { measure: 'voltage', red: 'R1.2', black: 'G1.-' }));
    expect(low).toBeCloseTo(3.6, 9);
    expect(nominal).toBeCloseTo(4, 9);
    expect(high).toBeCloseTo(4.4, 9);
  });

  it('reads nothing of the circuit without any path', () => {
    expect(at({ red: 'R2.1 (part side)', apart: ['R2'] }).state).toBe('floating');
  });
});

function read(view: ReturnType<typeof systemOf>, measure: MeasureKind, red: string, black: string, meter: Meter) {
  const circuit = view.circuit(view.system.variants[0]!);
  return circuit.read({ measure, measurePlace: place, red: lead(red), black: lead(black) }, meter, circuit.rest);
}
