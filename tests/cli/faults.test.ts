import Ajv from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { faultwalk, folderWith, lampSystem } from './support.ts';

const folder = folderWith({
  'lamp.system.yaml': lampSystem,
  /** T. R. Kuphaldt, Lessons In Electric Circuits, Vol. I (DC), ch. 5, "Component failure analysis", figs 10090 and 10091. */
  'series.system.yaml': `format: 1
system: series
variants: { long: With R4 at the end, short: Without }
parts:
  V1: { kind: supply, voltage: 9 V }
  R1: { kind: resistor, resistance: 100 Ω }
  R2: { kind: resistor, resistance: 300 Ω }
  R3: { kind: resistor, resistance: 50 Ω }
  R4: { kind: resistor, resistance: 1 kΩ, only: long }
wires:
  - A: V1.+ to R1.1
  - B: R1.2 to R2.1
  - C: R2.2 to R3.1
  - D: R3.2 to V1.-
  - E: R4.1 to V1.-, only long
  - F: R4.2 to V1.+, only long
faults:
  R2 shorted: { likelihood: 4, severity: 2, resistance: 0 Ω }
  A open: { excluded: A copper bar }
  B short to D: { added: One clip holds both }
`,
  'fused.system.yaml': `format: 1
system: fused
parts:
  G1: { kind: battery, voltage: 12 V, internal resistance: 20 mΩ }
  F1: { kind: fuse, rating: 10 A }
  E1: { kind: resistor, resistance: 10 Ω }
connectors:
  X1: { cavities: [1] }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: G1.+ to F1.1
  - W2: F1.2 to E1.1 through X1/1
  - W3: E1.2 to GND-1
  - W4: G1.- to GND-1
`,
});

describe('faultwalk faults', () => {
  it('lists what can be wrong, with what mends it, and below it what the file excludes', async () => {
    const { status, out, err } = await faultwalk(folder, ['faults', 'series.system.yaml']);
    expect([status, err]).toEqual([0, '']);
    const lines = out.split('\n');
    expect(lines[0]).toBe('series');
    expect(lines[1]).toMatch(/^\d+ faults, 1 excluded$/);
    expect(lines[3]).toMatch(/^fault +mended by +likelihood +severity +extent +only in +from$/);
    expect(lines.find(line => line.startsWith('R2 shorted'))).toMatch(/^R2 shorted +R2 +4 +2 +0 Ω +\d+$/);
    expect(lines.find(line => line.startsWith('R4 open'))).toMatch(/ long +\d+$/);
    expect(lines.find(line => line.startsWith('B short to D '))).toMatch(/^B short to D +B, D +1 +1 +10 mΩ/);
    expect(out).toMatch(/Excluded\nA open {2}A copper bar\n$/);
    expect(lines.every(line => line === line.trimEnd())).toBe(true);
  });

  it('tells other programs the same', async () => {
    const { out } = await faultwalk(folder, ['faults', 'series.system.yaml', '--format', 'json', '--variant', 'short']);
    const output = JSON.parse(out);
    const check = new Ajv().compile(shape);
    expect(check(output), JSON.stringify(check.errors)).toBe(true);
    expect(output.faults.find((f: { id: string }) => f.id === 'R2 shorted')).toMatchObject({
      owner: 'R2',
      mendedBy: ['R2'],
      kind: 'shorted',
      variants: ['short'],
      likelihood: 4,
      likelihoodSource: 'this file',
      severity: 2,
      extent: { value: 0, unit: 'Ω', source: 'this file' },
      electrical: true,
    });
    expect(output.faults.find((f: { id: string }) => f.id === 'A open').excluded).toBe('A copper bar');
    expect(output.faults.some((f: { owner: string }) => f.owner === 'R4')).toBe(false);
  });
});

const text = { type: 'string', minLength: 1 };
/** `FaultsOutput` of DEVELOPERS.md. */
const shape = {
  type: 'object',
  required: ['version', 'faults'],
  properties: {
    version: { const: 1 },
    faults: {
      type: 'array',
      items: {
        type: 'object',
        required: [
          'id',
          'owner',
          'kind',
          'title',
          'variants',
          'mendedBy',
          'likelihood',
          'likelihoodSource',
          'severity',
          'electrical',
        ],
        additionalProperties: false,
        properties: {
          ...{
            id: text,
            owner: text,
            kind: text,
            title: text,
            where: text,
            likelihoodSource: text,
            excluded: text,
            added: text,
          },
          variants: { type: 'array', items: text },
          mendedBy: { type: 'array', items: text },
          likelihood: { type: 'number' },
          severity: { type: 'number' },
          electrical: { type: 'boolean' },
          extent: {
            type: 'object',
            required: ['value', 'unit', 'source'],
            properties: { value: { type: 'number' }, unit: { enum: ['Ω', 'V', '1'] }, source: text },
          },
        },
      },
    },
  },
};

describe('faultwalk reading --fault', () => {
  const series = (...more: string[]) =>
    faultwalk(folder, ['reading', 'series.system.yaml', '--measure', 'voltage', ...more, '--variant', 'short']);

  // Fig. 10090: with R2 shorted R1 has 6 V and R3 has 3 V; fig. 10091: with R2 open the whole 9 V stand across it. The meter's 10 MΩ
  // beside them are not in the book.
  it.each([
    ['R2 shorted', 'R1.1', 'R1.2', 6],
    ['R2 shorted', 'R3.1', 'R3.2', 3],
    ['R2 open', 'R1.1', 'R1.2', 0],
    ['R2 open', 'R2.1', 'R2.2', 9],
  ])('%s: %s to %s shows %s V', async (fault, red, black, volts) => {
    const at = ['--red', red, '--black', black, '--fault', fault];
    const { status, out } = await series(...at);
    expect(status).toBe(0);
    expect(out.trimEnd().split('\n').at(-1)).toMatch(new RegExp(`^with ${fault}`));
    const read = JSON.parse((await series(...at, '--format', 'json')).out);
    expect(read).toMatchObject({ kind: 'number', unit: 'V', fault, blown: [] });
    expect(Math.abs(read.nominal - volts)).toBeLessThan(5e-4);
  });

  it('says which fuse the fault has blown', async () => {
    const args = ['reading', 'fused.system.yaml', '--measure', 'voltage', '--red', 'E1.1', '--black', 'GND-1'];
    const short = [...args, '--fault', 'W2 short to ground after X1/1'];
    expect((await faultwalk(folder, short)).out).toBe(
      '0 V\nwith W2 short to ground after X1/1 (10 mΩ), which blows F1\n',
    );
    expect(JSON.parse((await faultwalk(folder, [...short, '--format', 'json'])).out)).toMatchObject({
      kind: 'number',
      nominal: 0,
      fault: 'W2 short to ground after X1/1',
      blown: ['F1'],
    });
  });

  it('tells the variant where not all that were asked about have the fault', async () => {
    const args = ['reading', 'series.system.yaml', '--measure', 'voltage', '--red', 'R1.1', '--black', 'R3.2'];
    expect((await faultwalk(folder, [...args, '--fault', 'R4 open'])).out).toBe('long: 9 V\n  with R4 open\n');
  });

  it.each([
    ['R2 opne', 'There is no fault `R2 opne` in `series.system.yaml`\nhelp: did you mean `R2 open`?\n'],
    ['R4 open', 'There is no fault `R4 open` in `series.system.yaml`\nhelp: did you mean `R1 open`?\n'],
  ])('knows no %s', async (fault, said) => {
    const { status, err } = await series('--red', 'R1.1', '--black', 'R1.2', '--fault', fault);
    expect([status, err]).toEqual([2, said]);
  });

  it('asks which of several is meant', async () => {
    const args = ['reading', 'fused.system.yaml', '--measure', 'voltage', '--red', 'E1.1', '--black', 'GND-1'];
    const { status, err } = await faultwalk(folder, [...args, '--fault', 'W2 open']);
    expect(status).toBe(2);
    expect(err).toBe(
      '`W2 open` may be any of 2 faults\nhelp: name one of them: `W2 open before X1/1`, `W2 open after X1/1`; ' +
        '`faultwalk faults` lists all\n',
    );
  });
});
