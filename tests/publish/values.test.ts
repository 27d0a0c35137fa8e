import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { NumberReading } from '../../server/src/analysis/electrical.ts';
import type { ValuesTable } from '../../server/src/analysis/values/table.ts';
import { valuesAsCsv } from '../../server/src/publish/values-csv.ts';
import { valuesAsMarkdown } from '../../server/src/publish/values-markdown.ts';
import { valuesAsText } from '../../server/src/publish/values-text.ts';

const reading = (nominal: number, reach: number, dimension: 'voltage' | 'resistance'): NumberReading => ({
  state: 'number',
  dimension,
  low: nominal - reach,
  nominal,
  high: nominal + reach,
  attained: { low: nominal - reach, high: nominal + reach },
  exact: true,
  lowAt: [],
  highAt: [],
});

const table: ValuesTable = {
  variant: 'standard',
  black: 'GND-1',
  operating: [{ name: 'key', state: 'run' }],
  voltages: [
    {
      red: 'A1.14',
      black: 'GND-1',
      title: '=HYPERLINK("x","y"), see | plan',
      also: ['X12/1', '@S6.1'],
      readings: [
        { states: [{ name: 'key', state: 'run' }], reading: reading(-4.6, 0.1, 'voltage') },
        { states: [{ name: 'S6', state: '+on' }], reading: { state: 'floating', lead: 'red' } },
        { states: [{ name: 'S6', state: 'off' }], reading: reading(0.0005, 0.0001, 'voltage') },
      ],
    },
  ],
  resistances: [
    {
      red: 'S6.1',
      black: 'S6.2',
      title: 'Keypad',
      also: [],
      readings: [
        { states: [{ name: 'S6', state: 'idle' }], reading: reading(18_000, 360, 'resistance') },
        { states: [{ name: 'S6', state: 'open' }], reading: { state: 'over limit' } },
      ],
    },
  ],
  leftOut: { points: [], states: [{ name: 'S9', state: 'pressed' }], parts: ['B1'] },
};

describe('a table of values as comma-separated values', () => {
  const text = valuesAsCsv([table]);
  const cells = Papa.parse<string[]>(text.trimEnd()).data;

  it('has a record for each reading, all of one length, each ended as RFC 4180 says', () => {
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(cells.map(record => record.length)).toEqual([12, 12, 12, 12, 12, 12]);
    expect(cells[4]).toEqual([
      'standard',
      'resistance',
      'S6.1',
      'S6.2',
      'Keypad',
      '',
      'S6: idle',
      '17640',
      '18000',
      '18360',
      'Ω',
      '17.64 kΩ .. 18.36 kΩ',
    ]);
  });

  it('writes a state as a word and leaves its numbers empty', () => {
    expect(cells[2]!.slice(7)).toEqual(['', '', '', '', 'floating']);
    expect(cells[5]!.slice(7)).toEqual(['', '', '', '', 'OL']);
  });

  it('starts no formula, and leaves a negative number one', () => {
    expect(cells.flat().filter(cell => /^\s*[=@+\t\r]/.test(cell))).toEqual([]);
    expect(cells[1]!.slice(4, 6)).toEqual([`'=HYPERLINK("x","y"), see | plan`, 'X12/1 @S6.1']);
    expect(cells[1]!.slice(7, 10)).toEqual(['-4.7', '-4.6', '-4.5']);
    expect(cells[1]![11]).toBe(`'-4.7 V .. -4.5 V`);
  });
});

describe('a table of values as Markdown', () => {
  const lines = valuesAsMarkdown('Loader', [table]).split('\n');

  it('has a cell for each column whatever a name holds', () => {
    const rows = lines.filter(line => line.startsWith('|'));
    expect(rows.map(row => row.replaceAll('\\|', '').split('|').length - 2)).toEqual(rows.map(() => 6));
    expect(lines).toContain('|  |  |  | S6: +on | floating |  |');
    expect(lines).toContain('| S6.1 to S6.2 | Keypad |  | S6: idle | 17.64 kΩ .. 18.36 kΩ | 18 kΩ |');
  });

  it('says what it does not hold', () => {
    expect(lines).toContain('Not looked at, as the system is large: S9: pressed.');
    expect(lines).toContain('The resistance is not computed of B1.');
  });
});

describe('a table of values at a terminal', () => {
  it('has its columns below one another', () => {
    expect(valuesAsText('Loader', [table])).toBe(`Loader

Voltages
Set key: run, all else at rest and plugged together. Black lead on GND-1, red lead in from behind the plug.
Place                                   State     Reading           Nominal
A1.14  =HYPERLINK("x","y"), see | plan  key: run  -4.7 V .. -4.5 V  -4.6 V
  X12/1, @S6.1                          S6: +on   floating
                                        S6: off   below 10 mV

Resistances
The plug of the part off, both leads on its terminals, all else at rest. Leads that were not zeroed add up to 0.2 Ω.
Place                 State     Reading               Nominal
S6.1 to S6.2  Keypad  S6: idle  17.64 kΩ .. 18.36 kΩ  18 kΩ
                      S6: open  OL

A state that is not listed changes nothing there that the meter can tell.
Not looked at, as the system is large: S9: pressed.
The resistance is not computed of B1.
`);
  });

  it('lets nothing out of a file steer the terminal', () => {
    const [row] = table.voltages;
    const loud = { ...table, voltages: [{ ...row!, title: 'a\u001b[31mb' }] };
    expect(valuesAsText('Loader', [loud])).not.toContain('\u001b');
  });
});
