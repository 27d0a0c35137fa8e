import { describe, expect, it } from 'vitest';
import type { MeterReading } from '../../server/src/analysis/electrical.ts';
import { readingShape } from '../../server/src/publish/reading-json.ts';
import { readingAsText } from '../../server/src/publish/reading-text.ts';

const number: MeterReading = {
  state: 'number',
  dimension: 'voltage',
  low: 0.1 + 0.2,
  nominal: 0.5,
  high: 0.7,
  attained: { low: 0.31, high: 0.7 },
  exact: false,
  lowAt: [{ id: 'G1', kind: 'voltage', value: 11, end: 'low' }],
  highAt: [{ id: 'R1', kind: 'resistance', value: 1e-3 / 3, end: 'high' }],
};

describe('a reading', () => {
  it('has its numbers without residue, with the units of what is behind its ends', () => {
    expect(readingShape(number)).toEqual({
      kind: 'number',
      unit: 'V',
      low: 0.3,
      nominal: 0.5,
      high: 0.7,
      exact: false,
      lowAt: [{ name: 'G1', value: 11, unit: 'V' }],
      highAt: [{ name: 'R1', value: 0.000333333333333, unit: 'Ω' }],
    });
  });

  it('tells a reader where the ends only enclose what can be reached', () => {
    expect(readingAsText(number).split('\n')).toEqual([
      '300 mV .. 700 mV, nominal 500 mV',
      '310 mV .. 700 mV is reached by a combination that can be named',
      'lowest with `G1` at 11 V',
      'highest with `R1` at 333 µΩ',
    ]);
  });

  it('has no number for ohms without end, and `OL` for a reader', () => {
    const endless = { nominal: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY };
    const attained = { low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY };
    const reading: MeterReading = {
      ...number,
      ...endless,
      dimension: 'resistance',
      low: 236_025,
      attained,
      lowAt: [],
      highAt: [],
    };
    expect(readingShape(reading)).toMatchObject({ unit: 'Ω', low: 236_025, nominal: null, high: null });
    expect(readingAsText(reading).split('\n')).toEqual([
      'at least 236 kΩ, nominal OL',
      'OL is reached by a combination that can be named',
    ]);
  });

  const states: [MeterReading, object, string][] = [
    [
      { state: 'over limit' },
      { kind: 'over limit' },
      'OL\nno path between the leads, or more ohms than the meter can show',
    ],
    [
      { state: 'floating', lead: 'both' },
      { kind: 'floating', lead: 'both' },
      'floating\nboth leads touch nothing that is tied down',
    ],
    [
      { state: 'live', supplies: ['G1'] },
      { kind: 'live', supplies: ['G1'] },
      'live circuit\nG1 drives current between the leads; resistance is measured on a dead circuit',
    ],
    [
      { state: 'no contact', lead: 'black', reason: { kind: 'not in this variant' } },
      { kind: 'no contact', lead: 'black', why: 'not in this variant' },
      'no contact\nthe black lead: this variant does not have the point',
    ],
    [
      { state: 'not computed', parts: ['B1'] },
      { kind: 'not computed', parts: ['B1'] },
      'not computed\nthe behaviour of B1 is not computed',
    ],
    [
      {
        state: 'not settled',
        names: ['K1', 'K2'],
        circle: [
          { name: 'K1', on: true },
          { name: 'K2', on: false },
        ],
      },
      {
        kind: 'not settled',
        names: ['K1', 'K2'],
        circle: [
          { name: 'K1', on: true },
          { name: 'K2', on: false },
        ],
      },
      'does not settle\n`K1` comes on, so `K2` goes off, and round again',
    ],
    [
      { state: 'no solution', names: ['G1', 'G2'], why: 'source-loop' },
      { kind: 'no solution', names: ['G1', 'G2'], why: 'source-loop' },
      'no solution\nG1, G2 cannot be as they are wired',
    ],
  ];
  it.each(states)('that is no number is a state: %o', (reading, shape, text) => {
    expect(readingShape(reading)).toEqual(shape);
    expect(readingAsText(reading)).toBe(text);
  });
});
