import { describe, expect, it } from 'vitest';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { byNumber, type Shown, shownAlways } from '../../server/src/proof/numbers.ts';
import { procedureOn, stepOf, told } from './support.ts';

/** The limits are 4.71 V to 4.93 V. */
function taken(then: string, shown: Shown, isMetered = false): readonly string[] {
  const view = procedureOn(`
steps: { look: { measure: voltage, red: R2.1, black: GND-1, limits: 4.71 V .. 4.93 V, then: { ${then} } } }
endings: { a: { no fault: A }, b: { no fault: B }, c: { no fault: C } }
`);
  const { action, branches } = stepOf(view);
  const limit = action.verb === 'measure' ? action.limits?.limit : undefined;
  return told(byNumber(branches, limit, shown, 'voltage', handheldMeter, isMetered));
}

const range = (low: number, nominal: number, high: number, attained = { low, high }): Shown => ({
  low,
  nominal,
  high,
  attained,
  lowAt: [],
  highAt: [],
});

const three = 'within: a, below: b, above: c';

describe('the branches that a range of readings touches', () => {
  it.each([
    ['one that lies inside', three, range(4.8, 4.85, 4.9), ['within: 4.85 V, certain']],
    [
      'the nominal one first',
      three,
      range(4.6, 4.96, 5),
      ['above: 4.96 V, tolerance', 'below: 4.6 V, tolerance', 'within: 4.71 V, tolerance'],
    ],
    ['an end that the limits include', three, range(4.8, 4.85, 4.93), ['within: 4.85 V, certain']],
    [
      'one beyond what named machines reach',
      three,
      range(4.8, 4.85, 5, { low: 4.8, high: 4.9 }),
      ['within: 4.85 V, tolerance', 'above: 5 V, enclosed'],
    ],
    [
      'what no branch takes',
      'within: a, below: b',
      range(4.9, 4.92, 5),
      ['within: 4.92 V, tolerance', 'none: 5 V, tolerance'],
    ],
    ['everything else', 'within: a, otherwise: b', range(5, 5.1, 5.2), ['otherwise: 5.1 V, certain']],
    [
      'a stretch between the ends',
      'within: a, above 6 V: c, otherwise: b',
      range(4, 5.5, 7),
      ['otherwise: 5.5 V, tolerance', 'within: 4.71 V, tolerance', 'above 6 V: 7 V, tolerance'],
    ],
    [
      'two branches that take the same, both',
      'within: a, above 4.8 V: c, below: b',
      range(4.85, 4.86, 4.87),
      ['within: 4.86 V, tolerance', 'above 4.8 V: 4.86 V, tolerance'],
    ],
    [
      'what is shown without a path',
      'within: a, OL: b, otherwise: c',
      shownAlways(Number.POSITIVE_INFINITY),
      ['OL: OL, certain'],
    ],
    ['what is over the limit of the meter', three, shownAlways(Number.POSITIVE_INFINITY), ['above: OL, certain']],
    ['what a floating lead shows', three, shownAlways(0), ['below: 0 V, certain']],
  ])('%s', (_, then, shown, expected) => {
    expect(taken(then, shown)).toEqual(expected);
  });

  // A common handheld meter: 0.5 % and 2 steps of 1 mV. 4.9 V + 24.5 mV + 2 mV is 4.9265 V, 4.91 V + 24.55 mV + 2 mV 4.93655 V.
  it.each([
    ['stays inside', 4.9, ['within: 4.85 V, certain']],
    ['may show more', 4.91, ['within: 4.85 V, tolerance', 'above: 4.937 V, tolerance']],
  ])('a meter %s with its error', (_, high, expected) => {
    expect(taken(three, range(4.8, 4.85, high), true)).toEqual(expected);
  });
});
