import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { changesFrom } from '../../server/src/analysis/values/changes.ts';
import type { ValueRow, ValuesTable } from '../../server/src/analysis/values/table.ts';
import { valuesTable } from '../../server/src/analysis/values/values.ts';
import { statesInWords, valueInWords, voltagesInWords } from '../../server/src/analysis/values/words.ts';
import { ask, number, systemOf } from './support.ts';

const example = (name: string) => systemOf(fs.readFileSync(new URL(`../../examples/${name}`, import.meta.url), 'utf8'));
const loader = example('loader/loader-aux.system.yaml');
const tableOf = (text: string, options = {}) => valuesTable(systemOf(text), 'standard', options);

/** `S6: on` to `1.649 V .. 1.786 V`. */
function told(row: ValueRow | undefined): Record<string, string> {
  const lines = row?.readings.map(({ states, reading }) => [statesInWords(states), valueInWords(reading).range]);
  return Object.fromEntries(lines ?? []);
}

function voltageAt(table: ValuesTable, point: string): ValueRow | undefined {
  return table.voltages.find(({ red, also }) => red === point || also.includes(point));
}

function between(table: ValuesTable, red: string, black: string): ValueRow | undefined {
  return table.resistances.find(row => row.red === red && row.black === black);
}

describe('the values of the loader', () => {
  const table = valuesTable(loader, 'relay-fed');

  it('start from the state that powers its module, and say so', () => {
    expect(table.operating).toEqual([{ name: 'key', state: 'run' }]);
    expect(voltagesInWords(table)).toBe(
      'Set key: run, all else at rest and plugged together. Black lead on GND-1, red lead in from behind the plug.',
    );
  });

  it('have the keypad line once, with its other places and each button', () => {
    const row = voltageAt(table, 'A1.14');
    expect([row?.red, row?.title, row?.also]).toEqual(['A1.14', 'keypad sense', ['X12/1', 'S6.1']]);
    expect(Object.keys(told(row))).toEqual([
      'key: run',
      'key: off',
      'QS1: off',
      'S6: on',
      'S6: more',
      'S6: less',
      'S6: off',
    ]);
  });

  it('are what the circuit reads in each state', () => {
    for (const { states, reading } of voltageAt(table, 'A1.14')!.readings) {
      const set = Object.fromEntries([...table.operating, ...states].map(({ name, state }) => [name, state]));
      const asked = ask(loader, { measure: 'voltage', red: 'A1.14', black: 'GND-1', set }, 'relay-fed');
      expect(number(reading)).toEqual(number(asked));
    }
  });

  it('hold an output in the first pair of states that switches it', () => {
    expect(told(voltageAt(table, 'A1.23'))).toMatchObject({
      'key: run': 'below 10 mV',
      'seat: occupied, S6: on': expect.stringMatching(/^12\.\d+ V \.\. 12\.\d+ V$/),
    });
  });

  it('hold what the output feeds in that pair, too', () => {
    const genset = valuesTable(example('generator/genset.system.yaml'), 'twelve-volt');
    expect(told(voltageAt(genset, 'H1.1'))).toEqual({
      'at rest': 'below 10 mV',
      'air: cold, S1: manual': expect.stringMatching(/^1\d\.\d+ V \.\. 1\d\.\d+ V$/),
    });
  });

  it('have the coil and both contacts of the relay without its plug', () => {
    const rows = table.resistances.filter(({ red }) => red.startsWith('K3.'));
    expect(rows.map(({ red, black }) => `${red} ${black}`)).toEqual(['K3.85 K3.86', 'K3.30 K3.87', 'K3.30 K3.87a']);
    expect(rows.map(row => Object.values(told(row))[0])).toEqual(['68.4 Ω .. 82.9 Ω', 'OL', 'at most 0.3 Ω']);
  });

  it('are of one variant alone', () => {
    const other = valuesTable(loader, 'fuse-fed');
    expect([voltageAt(other, 'A1.22'), between(other, 'K3.85', 'K3.86')]).toEqual([undefined, undefined]);
  });

  it('are the same when they are asked for again', () => {
    expect(valuesTable(loader, 'relay-fed')).toEqual(table);
  });
});

it('buttons that put 680 Ω beside an idle path of 22.6 kΩ read as the two in parallel (common practice, no source)', () => {
  const table = tableOf(`format: 1
system: keys
parts:
  S1: { kind: coded switches, idle: 22.6 kΩ, buttons: { set: 680 Ω } }
  A1:
    kind: module
    ground: 2
    pins: { 1: { name: keys, pull-up: { to: 5 V, through: 1 kΩ } }, 2: { name: ground } }
wires:
  - W1: S1.1 to A1.1
  - W2: S1.2 to GND-1
  - W3: A1.2 to GND-1
grounds: { GND-1: Frame }
`);
  const parallel = (22_600 * 680) / (22_600 + 680);
  const ohms = between(table, 'S1.1', 'S1.2')!.readings;
  expect(ohms.map(({ states }) => statesInWords(states))).toEqual(['S1: idle', 'S1: set']);
  expect(ohms.map(({ reading }) => number(reading).nominal)).toEqual([22_600, expect.closeTo(parallel, 6)]);
  const volts = voltageAt(table, 'A1.1')!.readings.map(({ reading }) => number(reading).nominal);
  // The meter's own 10 MΩ lie beside the keys.
  expect(volts[0]).toBeCloseTo((5 * 22_600) / 23_600, 3);
  expect(volts[1]).toBeCloseTo((5 * parallel) / (1_000 + parallel), 3);
});

const lamp = `format: 1
system: lamp
conditions:
  key: [off, run]
  engine: { states: [stopped, running], needs: { running: { key: run } } }
  oil: { from: -20 °C, to: 110 °C, rest: 20 °C }
parts:
  G1: { kind: battery, voltage: 12 V }
  S1: { kind: switch, closed: { key: run } }
  S2: { kind: switch, positions: [up, down], closed: down }
  E1: { kind: resistor, resistance: 10 Ω }
  R9: { kind: resistor }
wires:
  - W4: G1.+ to S1.1
  - W5: S1.2 to S2.1
  - W6: S2.2 to E1.1
  - W7: E1.2 to G1.-
`;

describe('where values start from', () => {
  it('is the one state that feeds the most lines where no module says what powers it', () => {
    expect(tableOf(lamp).operating).toEqual([{ name: 'key', state: 'run' }]);
  });

  it('is what was asked for', () => {
    const { operating, voltages } = tableOf(lamp, { operating: [{ name: 'S2', state: 'down' }] });
    expect(operating).toEqual([{ name: 'S2', state: 'down' }]);
    expect(told(voltages.find(({ red }) => red === 'S2.2'))).toEqual({ 'S2: down': '0 V', 'key: run': '12 V' });
  });

  it('has the black lead at the first supply where there is no ground, and nowhere where there is neither', () => {
    expect(tableOf(lamp).black).toBe('G1.-');
    const dead = tableOf('format: 1\nsystem: dead\nparts: { R1: { kind: resistor, resistance: 1 kΩ } }\n');
    expect([dead.black, dead.voltages, dead.resistances.length]).toEqual([undefined, [], 1]);
  });
});

describe('the states that are looked at', () => {
  const { system, circuit: circuitOf } = systemOf(lamp);
  const circuit = circuitOf('standard');
  const names = changesFrom(circuit.rest, system, circuit).map(({ states }) => statesInWords(states));

  it('are each one change away, with what it cannot be had without, and both ends of a number', () => {
    expect(names).toEqual(['key: run', 'engine: running, key: run', 'oil: -20 °C', 'oil: 110 °C', 'S2: down']);
  });

  it('stand at a place only where the meter can tell them', () => {
    const table = tableOf(lamp);
    expect(told(voltageAt(table, 'S1.2'))).toEqual({ 'key: run': '12 V', 'key: off': 'floating' });
    expect(told(voltageAt(table, 'G1.+'))).toEqual({ 'key: run': '12 V' });
    expect(told(between(table, 'S1.1', 'S1.2'))).toEqual({ 'key: off': 'OL', 'key: run': 'at most 0.2 Ω' });
  });
});

it('a file that is cut anywhere still has a table', () => {
  const lines = loader.tree.text.split('\n');
  for (let end = 0; end <= lines.length; end += 6) {
    const view = systemOf(lines.slice(0, end).join('\n'));
    const table = valuesTable(view, view.system.variants[0]!, { mostReadings: 40 });
    expect(table.variant).toBe(view.system.variants[0]);
  }
});

it('a relay that was pulled in stays so down to its drop-out, from where the table starts', () => {
  const table = tableOf(`format: 1
system: hold
conditions: { key: [off, run], charge: [full, low] }
parts:
  G1: { kind: battery, voltage: [{ when: { charge: full }, is: 12 V }, { when: { charge: low }, is: 5 V }] }
  S1: { kind: switch, closed: { key: run } }
  K1: { kind: relay, coil: 80 Ω, pull-in: 8 V, drop-out: 2 V }
  R1: { kind: resistor, resistance: 40 Ω }
wires:
  - W1: G1.+ to S1.1
  - W2: S1.2 to K1.85
  - W3: K1.86 to G1.-
  - W4: G1.+ to K1.30
  - W5: K1.87 to R1.1
  - W6: R1.2 to G1.-
`);
  expect(told(voltageAt(table, 'K1.87'))).toEqual({ 'key: run': '12 V', 'key: off': '0 V', 'charge: low': '5 V' });
});

describe('a table that is bounded', () => {
  it('names the states that it did not look at, and keeps the rest whole', () => {
    const { voltages, leftOut } = tableOf(lamp, { mostReadings: 12, operating: [] });
    expect(leftOut.states.map(({ name }) => name)).toEqual(['engine', 'oil', 'oil', 'S2']);
    expect(leftOut.points).toEqual([]);
    expect(told(voltages.find(({ red }) => red === 'S1.2'))).toEqual({ 'at rest': 'floating', 'key: run': '12 V' });
  });

  it('names the points that it did not measure', () => {
    expect(tableOf(lamp, { mostReadings: 3, operating: [] }).leftOut.points.length).toBe(6);
  });

  it('names the parts whose resistance is not computed', () => {
    expect(tableOf(lamp).leftOut.parts).toEqual(['R9']);
  });
});
