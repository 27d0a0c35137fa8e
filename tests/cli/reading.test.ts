import { describe, expect, it } from 'vitest';
import worstCases from '../reference/worstcase.json' with { type: 'json' };
import { faultwalk, folderWith } from './support.ts';

const folder = folderWith({
  /** T. R. Kuphaldt, Lessons In Electric Circuits, Vol. I (DC), ch. 5, "Simple series circuits": 9 V, 3 kΩ, 10 kΩ, 5 kΩ. */
  'series.system.yaml': `format: 1
system: series
parts:
  V1: { kind: supply, voltage: 9 V }
  R1: { kind: resistor, resistance: 3 kΩ }
  R2: { kind: resistor, resistance: 10 kΩ }
  R3: { kind: resistor, resistance: 5 kΩ }
wires:
  - A: V1.+ to R1.1
  - B: R1.2 to R2.1
  - C: R2.2 to R3.1
  - D: R3.2 to V1.-
`,
  /** The divider of worstcase.json, example mathematica-10pct, with ohms for its kilohms, so that no meter loads it. */
  'divider.system.yaml': `format: 1
system: divider
parts:
  V1: { kind: supply, voltage: 5 V }
  Ra: { kind: resistor, resistance: 100 Ω ± 10 % }
  Rb: { kind: resistor, resistance: 30 Ω ± 10 % }
wires:
  - A: V1.+ to Ra.1
  - B: Ra.2 to Rb.1
  - C: Rb.2 to V1.-
`,
  /** Resistances in parallel: DOE-HDBK-1011/1-92, Module 2, p. 36 (fig. 28), 8 Ω beside 24 Ω. */
  'parallel.system.yaml': `format: 1
system: parallel
parts:
  V1: { kind: supply, voltage: 6 V }
  S1: { kind: switch, positions: [open, shut], closed: shut }
  R1: { kind: resistor, resistance: 8 Ω }
  RX: { kind: resistor, resistance: 24 Ω }
wires:
  - A: V1.+ to S1.1
  - B: S1.2 to R1.1
  - C: R1.1 to RX.1
  - D: R1.2 to RX.2
  - E: R1.2 to V1.-
`,
  'keypad.system.yaml': `format: 1
system: keypad
variants: { short: Without the relay, long: With the relay }
conditions:
  key: [off, run]
  engine: { states: [stopped, running], needs: { running: { key: run } } }
  oil: { from: -20 °C, to: 110 °C, rest: 20 °C }
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.3 V, internal resistance: 10 mΩ }
  S1: { kind: switch, closed: { key: run } }
  S6: { kind: coded switches, idle: 18 kΩ ± 2 %, buttons: { on: 820 Ω ± 2 %, off: short } }
  R9: { kind: resistor, resistance: 100 Ω, only: long }
  A1:
    kind: module
    ground: 2
    pins:
      1: { name: feed, draws: 470 Ω ± 20 % }
      2: { name: ground }
      14: { name: sense, pull-up: { to: 5 V ± 2 %, through: 1.5 kΩ ± 1 % } }
connectors:
  X12: { cavities: [1, 2] }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to S1.1
  - W2: S1.2 to A1.1, only short
  - W3: S1.2 to R9.1, only long
  - W4: R9.2 to A1.1, only long
  - W5: G1.- to GND-1
  - W6: A1.2 to GND-1
  - W41: S6.1 to A1.14 through X12/1
  - W42: S6.2 to GND-1 through X12/2
`,
});

const reading = (system: string, ...args: string[]) => faultwalk(folder, ['reading', `${system}.system.yaml`, ...args]);
const shape = async (system: string, ...args: string[]) =>
  JSON.parse((await reading(system, ...args, '--format', 'json')).out);

describe('faultwalk reading', () => {
  it('gives the current of a series circuit as its book does', async () => {
    expect(await shape('series', '--measure', 'current', '--around', 'R2')).toEqual({
      kind: 'number',
      unit: 'A',
      low: 0.0005,
      nominal: 0.0005,
      high: 0.0005,
      exact: true,
      lowAt: [],
      highAt: [],
    });
    expect((await reading('series', '--measure', 'current', '--around', 'R2')).out).toBe('500 µA\n');
  });

  it('gives the worst case of a divider as published, and names the combination behind each end', async () => {
    const { published_min, published_max, tolerance } = worstCases.examples.find(
      one => one.id === 'mathematica-10pct',
    )!;
    const { low, high, lowAt, highAt, ...rest } = await shape(
      'divider',
      ...['--measure', 'voltage', '--red', 'Rb.1', '--black', 'Rb.2'],
    );
    expect(Math.abs(low - published_min!)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(high - published_max!)).toBeLessThanOrEqual(tolerance);
    expect(rest).toMatchObject({ kind: 'number', unit: 'V', exact: true });
    const byName = (values: { name: string }[]) => values.sort((a, b) => (a.name < b.name ? -1 : 1));
    expect(byName(lowAt)).toEqual([
      { name: 'Ra', value: 110, unit: 'Ω' },
      { name: 'Rb', value: 27, unit: 'Ω' },
    ]);
    expect(byName(highAt)).toEqual([
      { name: 'Ra', value: 90, unit: 'Ω' },
      { name: 'Rb', value: 33, unit: 'Ω' },
    ]);
  });

  it('tells a reader the range, the nominal value and both combinations', async () => {
    const { out } = await reading('divider', '--measure', 'voltage', '--red', 'Rb.1', '--black', 'Rb.2');
    expect(out.split('\n')).toEqual([
      '0.985 V .. 1.342 V, nominal 1.154 V',
      expect.stringMatching(/^lowest with `R[ab]` at (110|27) Ω, `R[ab]` at (110|27) Ω$/),
      expect.stringMatching(/^highest with `R[ab]` at (90|33) Ω, `R[ab]` at (90|33) Ω$/),
      '',
    ]);
  });

  it('names no huge number for a state', async () => {
    const at = ['--red', 'S6.1 (part side)', '--black', 'A1.2', '--disconnect', 'S6'];
    expect(await shape('keypad', '--measure', 'resistance', ...at)).toEqual({ kind: 'over limit' });
    expect((await reading('keypad', '--measure', 'resistance', ...at)).out).toBe(
      'OL\nno path between the leads, or more ohms than the meter can show\n',
    );
    expect(await shape('keypad', '--measure', 'voltage', ...at)).toEqual({ kind: 'floating', lead: 'red' });
    expect((await reading('keypad', '--measure', 'voltage', ...at)).out).toBe(
      'floating\nthe red lead touches nothing that is tied down\n',
    );
    const live = ['--measure', 'resistance', '--red', 'A1.1', '--black', 'GND-1', '--set', 'key=run'];
    expect(await shape('keypad', ...live, '--variant', 'short')).toEqual({ kind: 'live', supplies: ['G1'] });
  });

  it('goes in from behind where a plug is mated, whether that is said or not', async () => {
    const at = ['--measure', 'voltage', '--black', 'GND-1', '--set', 'S6=on'];
    const plain = await reading('keypad', ...at, '--red', 'A1.14');
    expect(plain.status).toBe(0);
    expect(plain.out).toMatch(/^1\.\d+ V \.\. 1\.\d+ V, nominal 1\.\d+ V\n/);
    expect(await reading('keypad', ...at, '--red', 'A1.14 (back-probe)')).toEqual(plain);
    expect(await reading('keypad', ...at, '--red', 'X12/1')).toEqual(plain);
  });

  it('tells variants one by one where they differ, and once where they do not', async () => {
    const feed = ['--measure', 'voltage', '--red', 'A1.1', '--black', 'GND-1', '--set', 'key=run'];
    const { kind, variants } = await shape('keypad', ...feed);
    expect(kind).toBe('by variant');
    expect(Object.keys(variants)).toEqual(['short', 'long']);
    expect(variants.long.nominal).toBeLessThan(variants.short.nominal);
    const { out } = await reading('keypad', ...feed);
    expect(out).toMatch(/^short: 12.*\n {2}lowest with .*\n {2}highest with .*\n\nlong: \d.*\n {2}lowest/);
    expect((await shape('keypad', ...feed, '--variant', 'long')).kind).toBe('number');
    expect((await shape('keypad', ...feed.slice(0, -2))).kind).toBe('number');
  });

  it('tells a point that one variant lacks', async () => {
    const at = ['--measure', 'voltage', '--red', 'R9.1', '--black', 'GND-1'];
    expect((await shape('keypad', ...at)).variants.short).toMatchObject({ kind: 'no contact', lead: 'red' });
  });

  it('takes a number for a condition that has one', async () => {
    const at = ['--measure', 'voltage', '--red', 'A1.1', '--black', 'GND-1', '--variant', 'short'];
    expect((await reading('keypad', ...at, '--set', 'oil=90 °C')).status).toBe(0);
  });

  it.each([
    ['an error', 'G1: { kind: batery }', /^There is an error in `x\.system\.yaml`, so the reading may be wrong; /],
    ['errors', 'G1: { kind: batery }\n  G2: { kind: batery }', /^There are \d errors in `x\.system\.yaml`, so /],
  ])('warns where the file has %s', async (_, wrong, told) => {
    const text = `format: 1\nsystem: x\nparts:\n  V1: { kind: supply, voltage: 5 V }\n  ${wrong}\n`;
    const other = folderWith({ 'x.system.yaml': text });
    const args = ['reading', 'x.system.yaml', '--measure', 'voltage', '--red', 'V1.+', '--black', 'V1.-'];
    const { status, out, err } = await faultwalk(other, args);
    expect({ status, out }).toEqual({ status: 0, out: '5 V\n' });
    expect(err).toMatch(told);
  });
});

describe('faultwalk reading, of what is not only a number,', () => {
  const of = (...args: string[]) => reading('parallel', ...args);

  it('names what a resistance is also read through', async () => {
    const place = ['--measure', 'resistance', '--red', 'R1.1', '--black', 'R1.2'];
    expect((await of(...place)).out).toContain('also reads through `RX`; `R1` alone has 8 Ω');
    const { nominal, parallel } = JSON.parse((await of(...place, '--format', 'json')).out);
    expect(nominal).toBe(6);
    expect(parallel).toEqual({ of: 'R1', alone: 8, through: ['RX'] });
  });

  it('says whether a test lamp is lit', async () => {
    const place = ['--measure', 'test lamp', '--red', 'R1.1', '--black', 'V1.-'];
    expect(JSON.parse((await of(...place, '--set', 'S1=shut', '--format', 'json')).out)).toMatchObject({
      nominal: 6,
      shows: ['dim'],
    });
    expect((await of(...place)).out).toMatch(/^dark/);
  });
});

describe('faultwalk reading, in wrong use,', () => {
  const volts = ['--measure', 'voltage'];
  const both = [...volts, '--red', 'A1.14', '--black', 'GND-1'];
  it.each([
    [
      [...volts, '--red', 'A1.144', '--black', 'GND-1'],
      'There is no point `A1.144` in `keypad.system.yaml`',
      '`A1.14`',
    ],
    [[...volts, '--red', 'A1.14'], 'A meter has two leads', 'say where `--red` and `--black` go'],
    [['--measure', 'current'], 'A meter has two leads', '`--around`'],
    [[...volts, '--around', 'W41'], 'A clamp measures current only', 'say `--measure current`'],
    [['--measure', 'current', '--around', 'W411'], 'There is no wire or part `W411` in `keypad.system.yaml`', '`W41`'],
    [['--measure', 'current', '--around', 'W1', '--red', 'A1.1'], 'A clamp goes without leads', 'leave'],
    [[...both, '--variant', 'shrt'], 'There is no variant `shrt` in `keypad.system.yaml`', '`short`'],
    [
      [...volts, '--red', 'R9.1', '--black', 'GND-1', '--variant', 'short'],
      'The variant `short` does not have `R9.1`',
      'name another variant',
    ],
    [['--measure', 'current', '--around', 'W3', '--variant', 'short'], 'The variant `short` does not have `W3`', ''],
    [[...both, '--set', 'key'], '`--set key` says no state', '--set key=run'],
    [[...both, '--set', 'kez=run'], 'There is no condition or part with states `kez` in `keypad.system.yaml`', '`key`'],
    [[...both, '--set', 'key=runn'], 'There is no state `runn` in `key`', '`run`'],
    [[...both, '--set', 'engine=running'], '`engine` can only be running with `key` at run', 'set that as well'],
    [[...both, '--set', 'oil=200 °C'], '`oil` cannot be at 200 °C', '-20 °C .. 110 °C'],
    [[...both, '--disconnect', 'X21'], 'There is no connector or part `X21` in `keypad.system.yaml`', '`X12`'],
    [[...both, '--remove', 'R8'], 'There is no part `R8` in `keypad.system.yaml`', ''],
    [
      [...volts, '--red', 'X12/1', '--black', 'GND-1', '--disconnect', 'X12'],
      'The plug at `X12/1` is apart, so the red lead needs a side',
      '`X12/1 (S6 side)` or `X12/1 (A1 side)`',
    ],
    [
      [...volts, '--red', 'X12/1 (S7 side)', '--black', 'GND-1', '--disconnect', 'X12'],
      '`X12/1` has no `S7 side`',
      '`X12/1 (S6 side)`',
    ],
    [[...volts, '--red', 'A1.14 (left)', '--black', 'GND-1'], '`left` says nothing about a lead', 'back-probe'],
    [[...both, '--fault', 'S6 stuck onn'], 'There is no fault `S6 stuck onn`', 'did you mean `S6 stuck on`?'],
    [
      ['--measure', 'power'],
      'Option `--measure <quantity>` argument `power` is invalid',
      'voltage, resistance, continuity, current, test lamp',
    ],
    [[], 'Required option `--measure <quantity>` not specified', ''],
  ])('%j, says what to do', async (args, message, help) => {
    const { status, out, err } = await reading('keypad', ...args);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err.startsWith(message)).toBe(true);
    expect(err).toContain(help);
  });

  it('a file of another kind, is told', async () => {
    const other = folderWith({ 'lamp.procedure.yaml': 'format: 1\n' });
    const { status, err } = await faultwalk(other, ['reading', 'lamp.procedure.yaml', ...both]);
    expect(status).toBe(2);
    expect(err).toBe('`lamp.procedure.yaml` is not one system file\nhelp: name a file that ends in `.system.yaml`\n');
  });
});
