import { describe, expect, it } from 'vitest';
import type { MeterReading } from '../../server/src/analysis/electrical.ts';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { situation } from '../../server/src/analysis/situation.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeasureKind } from '../../server/src/model/step.ts';
import { lead, number, systemOf } from '../analysis/support.ts';

/**
 * What each fault does to the voltages of an invented machine, worked out by hand with Ohm's law from the values below; nothing here
 * is from a book.
 */
const text = `format: 1
system: bench
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12 V, internal resistance: 10 mΩ }
  F1: { kind: fuse, rating: 10 A, resistance: 10 mΩ }
  F2: { kind: fuse, rating: 5 A }
  S1: { kind: switch, closed: { key: run } }
  S2: { kind: switch, positions: [up, down], closed: down, contact resistance: 100 mΩ }
  S6: { kind: coded switches, idle: 9 kΩ, buttons: { on: 1 kΩ, off: short } }
  K1: { kind: relay, coil: 100 Ω, pull-in: 8 V, drop-out: 2 V, suppression: { resistor: 900 Ω } }
  R1: { kind: resistor, resistance: 10 Ω }
  Y1: { kind: coil, resistance: 8 Ω }
  A1:
    kind: module
    ground: 2
    powered: { pin: 1, above: 6 V }
    pins:
      1: { name: feed, draws: 1 kΩ }
      2: { name: ground }
      3: { name: sense, pull-up: { to: 5 V, through: 1 kΩ } }
      4: { name: drive, output: high side, feed: 1, on resistance: 1 Ω }
connectors:
  X1: { cavities: [1, 2] }
grounds:
  GND-1: { title: Frame }
  GND-2: { title: Engine, contact resistance: 1 mΩ }
splices:
  SP1: Feed
wires:
  - W1: G1.+ to F1.1
  - W2: F1.2 to S1.1
  - W3: S1.2 to SP1
  - W4: SP1 to R1.1 through X1/1
  - W5: R1.2 to GND-2 through X1/2
  - W6: G1.- to GND-1
  - W7: SP1 to A1.1
  - W8: A1.2 to GND-1
  - W9: A1.3 to S6.1, 0.75 mm², 1 m
  - W10: S6.2 to GND-1
  - W11: A1.4 to Y1.1
  - W12: Y1.2 to GND-1
  - W13: SP1 to F2.1
  - W14: F2.2 to K1.85, beside W11
  - W15: K1.86 to S2.1
  - W16: S2.2 to GND-1
  - W17: SP1 to K1.30
  - W18: K1.87 to GND-1, 1 kΩ
`;

const view = systemOf(text);
const circuit = view.circuit('standard');
const faults = faultsOf(view.system, 'standard');

interface Asked {
  readonly red: string;
  readonly black?: string;
  readonly measure?: MeasureKind;
  readonly set?: Record<string, string>;
  readonly apart?: readonly string[];
}

function readWith(
  id: string,
  { red, black = 'GND-1', measure = 'voltage', set = {}, apart = [] }: Asked,
): MeterReading {
  const fault = faults.find(f => f.id === id);
  if (!fault) throw new Error(`${id} is not derived`);
  const now = situation(new Map([...circuit.rest.states, ['key', 'run'], ...Object.entries(set)]), new Set(apart));
  const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };
  const at = { measure, measurePlace: place, red: lead(red), black: lead(black) };
  const meter = {
    ...handheldMeter,
    inputOhms: Number.POSITIVE_INFINITY,
    resistance: { ...handheldMeter.resistance, leadsOhms: 0 },
  };
  return circuit.read(at, meter, now, effectOf(fault));
}

describe('a fault', () => {
  it.each<[string, Asked, number | MeterReading['state']]>([
    // Wires in pieces: the broken piece alone is dead.
    ['W4 open before X1/1', { red: 'X1/1' }, 0],
    ['W4 open after X1/1', { red: 'X1/1' }, 12],
    ['W4 open after X1/1', { red: 'R1.1' }, 0],
    ['X1/2 open', { red: 'R1.2' }, 12],
    ['W5 open before X1/2', { red: 'X1/2', apart: ['X1'] }, 'no contact'],
    // A bad ground lifts what stands on it: 10 Ω over 10 Ω.
    ['GND-2 high resistance', { red: 'GND-2' }, 5.99],
    ['GND-2 open', { red: 'R1.2' }, 11.98],
    // Terminals and the part inside them: the wire at the terminal keeps its voltage.
    ['R1.1 open', { red: 'R1.1' }, 11.98],
    ['R1 open', { red: 'R1.1' }, 11.98],
    ['R1 drifted', { red: 'R1.1 (part side)', black: 'R1.2 (part side)', measure: 'resistance', apart: ['R1'] }, 13],
    [
      'R1 open',
      { red: 'R1.1 (part side)', black: 'R1.2 (part side)', measure: 'resistance', apart: ['R1'] },
      'over limit',
    ],
    ['R1.1 open', { red: 'R1.1 (part side)', black: 'R1.2 (part side)', measure: 'resistance', apart: ['R1'] }, 10],
    [
      'Y1 shorted turns',
      { red: 'Y1.1 (part side)', black: 'Y1.2 (part side)', measure: 'resistance', apart: ['Y1'] },
      4,
    ],
    // The keypad line: 5 V over 1 kΩ and 9 kΩ is 4.5 V; with `on` 900 Ω, 2.368 V.
    ['S6 open', { red: 'A1.3' }, 5],
    ['S6 stuck on', { red: 'A1.3' }, 2.3684],
    ['S6 stuck off', { red: 'A1.3' }, 0],
    ['S6 idle open', { red: 'A1.3' }, 5],
    ['S6 on open', { red: 'A1.3', set: { S6: 'on' } }, 4.5],
    ['S6 on drifted', { red: 'A1.3', set: { S6: 'on' } }, 2.6582],
    ['W9 short to ground', { red: 'A1.3' }, 0],
    ['W9 short to supply', { red: 'A1.3' }, 12],
    ['A1.3 open', { red: 'A1.3' }, 0],
    ['A1 supply lost', { red: 'A1.3' }, 0],
    // What has lost its ground takes it through the keypad: 1 kΩ, 1 kΩ and 9 kΩ in line.
    ['A1 ground lost', { red: 'A1.3' }, (12 * 9) / 11],
    // Switches and relays.
    ['S1 open', { red: 'SP1' }, 0],
    ['S1 stuck closed', { red: 'SP1', set: { key: 'off' } }, 11.976],
    ['S2 stuck closed', { red: 'K1.87' }, 11.97],
    ['S2 open', { red: 'K1.87', set: { S2: 'down' } }, 0],
    ['K1 coil open', { red: 'K1.87', set: { S2: 'down' } }, 0],
    [
      'K1 coil open',
      { red: 'K1.85 (part side)', black: 'K1.86 (part side)', measure: 'resistance', apart: ['K1'] },
      900,
    ],
    [
      'K1 suppression resistor open',
      { red: 'K1.85 (part side)', black: 'K1.86 (part side)', measure: 'resistance', apart: ['K1'] },
      100,
    ],
    ['K1 stuck open', { red: 'K1.87', set: { S2: 'down' } }, 0],
    ['K1 welded', { red: 'K1.87' }, 11.97],
    ['F2 blown', { red: 'K1.87', set: { S2: 'down' } }, 0],
    // Drivers: 1 Ω and 8 Ω.
    ['A1.4 stuck on', { red: 'A1.4' }, 10.61],
    // Supplies.
    ['G1 open', { red: 'F1.1' }, 0],
    ['G1 flat', { red: 'G1.+', set: { key: 'off' } }, 12 * (11.89 / 12.65)],
    ['G1 cell shorted', { red: 'G1.+', set: { key: 'off' } }, 10],
    ['G1 weak', { red: 'G1.+' }, 11.87],
  ])('%s at %o', (id, asked, expected) => {
    const reading = readWith(id, asked);
    if (typeof expected === 'string') expect(reading.state).toBe(expected);
    else expect(Math.abs(number(reading).nominal - expected), String(number(reading).nominal)).toBeLessThan(0.02);
  });
});

describe('a fuse', () => {
  const now = situation(new Map([...circuit.rest.states, ['key', 'run']]), new Set());
  const effect = (id: string) => effectOf(faults.find(f => f.id === id)!);

  it('is blown by a short behind it, and what it fed is dead', () => {
    expect(circuit.blown(now, effect('W3 short to ground'))).toEqual(['F1']);
    expect(number(readWith('W3 short to ground', { red: 'SP1' })).nominal).toBe(0);
    expect(number(readWith('W3 short to ground', { red: 'F1.1' })).nominal).toBeCloseTo(12, 6);
  });

  it('of two in line, the one with the greater share of its rating goes, and the other stays', () => {
    expect(circuit.blown(now, effect('W14 short to ground'))).toEqual(['F2']);
    expect(number(readWith('W14 short to ground', { red: 'SP1' })).nominal).toBeCloseTo(11.976, 2);
    expect(number(readWith('W14 short to ground', { red: 'K1.85' })).nominal).toBe(0);
  });

  it('is not blown while nothing feeds the short', () => {
    expect(circuit.blown(circuit.rest, effect('W3 short to ground'))).toEqual([]);
    expect(circuit.blown(now, effect('W9 short to ground'))).toEqual([]);
  });

  // 12 V over 10 mΩ, 10 mΩ and so many ohms beside the load of 10 Ω and the module; 13.5 A is the limit of a 10 A fuse.
  it.each([
    ['1.1 Ω', []],
    ['0.9 Ω', ['F1']],
  ])('stands a short of %s', (ohms, blown) => {
    const noted = systemOf(`${text}faults:\n  W3 short to ground: { resistance: ${ohms} }\n`);
    const fault = faultsOf(noted.system, 'standard').find(f => f.id === 'W3 short to ground')!;
    expect(noted.circuit('standard').blown(now, effectOf(fault))).toEqual(blown);
  });

  it('without a resistance of its own is blown as well', () => {
    const ideal = systemOf(
      text.replace('rating: 10 A, resistance: 10 mΩ', 'rating: 10 A').replace('kind: fuse', 'kind: breaker'),
    );
    const fault = faultsOf(ideal.system, 'standard').find(f => f.id === 'W3 short to ground')!;
    expect(ideal.circuit('standard').blown(now, effectOf(fault))).toEqual(['F1']);
  });

  it('that feeds what goes on and off for ever is blown by the current while it is on', () => {
    // The feed of the module falls below its threshold while its own driver is shorted, so the driver never comes to rest.
    const chattering = systemOf(
      text
        .replace(
          'powered: { pin: 1, above: 6 V }',
          'powered: { pin: 1, above: 6 V }\n    rules: [{ when: { key: run }, do: { 4: on } }]',
        )
        .replace('  - W7: SP1 to A1.1', '  - W7: SP1 to A1.1, 500 mΩ')
        .replace('on resistance: 1 Ω', 'on resistance: 100 mΩ'),
    );
    const board = chattering.circuit('standard');
    const fault = faultsOf(chattering.system, 'standard').find(f => f.id === 'W11 short to ground')!;
    // 12 V over 10 mΩ, 10 mΩ, 500 mΩ, 100 mΩ and 10 mΩ are 19 A; without the fuse the driver would buzz.
    expect(board.blown(now, effectOf(fault))).toEqual(['F1']);
  });
});

describe('a diode in line with a resistor', () => {
  const line = systemOf(`format: 1
system: line
parts:
  G1: { kind: battery, voltage: 12 V }
  V1: { kind: diode, forward voltage: 0.7 V }
  R1: { kind: resistor, resistance: 100 Ω }
grounds:
  GND-1: {}
wires:
  - W1: G1.+ to V1.A
  - W2: V1.K to R1.1
  - W3: R1.2 to GND-1
  - W4: G1.- to GND-1
`);
  const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };
  const at = { measure: 'voltage' as const, measurePlace: place, red: lead('R1.1'), black: lead('GND-1') };
  const board = line.circuit('standard');
  const volts = (id?: string) => {
    const fault = faultsOf(line.system, 'standard').find(f => f.id === id);
    return number(board.read(at, handheldMeter, board.rest, fault && effectOf(fault))).nominal;
  };

  it('holds its forward voltage back, all of it when open, none when shorted', () => {
    expect(volts()).toBeGreaterThan(11);
    expect(volts()).toBeLessThan(11.6);
    expect(volts('V1 open')).toBeCloseTo(0, 6);
    // 0.1 Ω of 100.1 Ω.
    expect(volts('V1 shorted')).toBeCloseTo((12 * 100) / 100.1, 2);
  });
});

describe('a part that is straight only piece by piece', () => {
  it('takes half the ohms in every piece with half of its turns, and its pieces still meet', () => {
    const ohms = (value: number) => ({ low: value, nominal: value, high: value });
    const segments = [
      { kind: 'line', volts: ohms(0), ohms: ohms(2), toV: 4 },
      { kind: 'line', volts: ohms(-4), ohms: ohms(4), fromV: 8 },
    ] as const;
    const bend = { id: 'M1', a: 1, b: 2, segments };
    const lowered = {
      network: { nodeCount: 3, elements: [], joins: [], bends: [bend] },
      senses: [],
      unknown: new Map(),
    };
    const effect = effectOf({ id: 'M1 shorted turns', changes: [{ do: 'scale', nodes: [1, 2], factor: 0.5 }] });
    const [changed] = effect.change(lowered).network.bends!;
    expect(changed!.segments).toMatchObject([
      { volts: ohms(0), ohms: ohms(1), toV: 4 },
      { volts: ohms(-4), ohms: ohms(2), fromV: 8 },
    ]);
  });
});
