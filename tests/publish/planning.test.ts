import { describe, expect, it } from 'vitest';
import { situation } from '../../server/src/analysis/situation.ts';
import type { Drafted } from '../../server/src/planning/draft/draft.ts';
import type { Next } from '../../server/src/planning/next.ts';
import { comparedAsText, draftedAsText } from '../../server/src/publish/drafted.ts';
import { nextAsJson, nextAsText } from '../../server/src/publish/next.ts';

const rest = situation(new Map([['key', 'off']]), new Set());
const next: Next = {
  step: 'volts',
  variant: 'standard',
  situation: situation(new Map([['key', 'run']]), new Set(['X1'])),
  rest,
  suspects: [
    { fault: 'W1 open', owner: 'W1', weight: 1 },
    { fault: 'F1 blown', owner: 'F1', weight: 2 },
    { fault: 'F1 open', owner: 'F1', weight: 0.5 },
  ],
  tests: [
    {
      what: { do: 'measure', red: 'F1.2', black: 'GND-1' },
      title: 'Voltage at F1.2 against GND-1',
      minutes: 2,
      bits: 0.9182958,
      bitsPerMinute: 0.4591479,
      total: { atLeast: 2, atMost: 3.504 },
      splits: [
        { outcome: { range: { low: -0.06, high: 0.06 } }, suspects: 2 },
        { outcome: { range: { low: 11.98, high: 13.12 } }, suspects: 1 },
      ],
    },
    {
      what: { do: 'read', module: 'A1', datum: 'feed' },
      title: 'Read A1 feed',
      minutes: 0,
      bits: 0,
      bitsPerMinute: Infinity,
      total: { atLeast: 4, atMost: 4 },
      splits: [{ outcome: { word: '' }, suspects: 3 }],
    },
  ],
};

describe('what to test next', () => {
  it('is a table for a reader, with what is set and what is apart', () => {
    const [head, heads, first, second] = nextAsText([next]).split('\n');
    expect(head).toBe('volts (standard): 3 suspects at 2 places, with key at run, X1 apart');
    expect(heads?.trim().split(/ {2,}/)).toEqual(['test', 'takes', 'tells', 'a minute', 'minutes in all', 'shows']);
    expect(first?.trim().split(/ {2,}/)).toEqual([
      'Voltage at F1.2 against GND-1',
      '2 min',
      '0.92 bit',
      '0.46',
      '2 to 3.5',
      '-60 mV .. 60 mV (2), 11.98 V .. 13.12 V (1)',
    ]);
    expect(second?.trim().split(/ {2,}/)).toEqual(['Read A1 feed', '0 min', '0 bit', 'at once', '4', 'no data (3)']);
  });

  it('is said to be nothing where nothing tells, and where no way leads', () => {
    expect(nextAsText([{ ...next, tests: [] }])).toContain('\n  Nothing that can be done here tells them apart.\n');
    expect(nextAsText([])).toBe('No way leads to this step in these variants\n');
  });

  it('writes no infinity, and no map, for other programs', () => {
    const { version, steps } = JSON.parse(nextAsJson([next]));
    expect(version).toBe(1);
    expect(Object.keys(steps[0])).toEqual(['step', 'variant', 'suspects', 'set', 'apart', 'tests']);
    expect(steps[0]).toMatchObject({ set: { key: 'run' }, apart: ['X1'], suspects: next.suspects });
    expect(steps[0].tests[0]).toEqual(next.tests[0]);
    expect(steps[0].tests[1].bitsPerMinute).toBeNull();
  });
});

describe('what is said about a draft', () => {
  const drafted: Drafted = { name: 'x', text: '', minutes: 6.26, lowerBound: 5.04, optimal: false, suspects: 7 };

  it('tells how good its order is', () => {
    expect(draftedAsText(drafted)).toContain(
      '7 faults show this complaint. Its tests take 6.3 minutes on average; no order of these tests takes fewer than 5.\n',
    );
    expect(draftedAsText({ ...drafted, optimal: true })).toContain('; no order of these tests takes fewer.\n');
  });

  it('tells the minutes of another procedure, and its five dearest steps', () => {
    const steps = ['a', 'b', 'c', 'd', 'e', 'f'].map(step => ({ step, minutes: 2, reached: 0.256 }));
    const text = comparedAsText('other.procedure.yaml', { meanMinutes: 12, steps, walks: 9 }, 6.26);
    expect(text).toMatch(/^other\.procedure\.yaml takes 12 minutes on average over 9 faults, .* the draft 6\.3\.\n/);
    expect(text.split('\n').slice(2, -1)).toEqual(
      ['a', 'b', 'c', 'd', 'e'].map(step => `  2 min at ${step}, done in 26 % of the walks`),
    );
  });
});
