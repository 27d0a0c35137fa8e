import { describe, expect, it } from 'vitest';
import { figuresOf } from '../../server/src/sequence/figures.ts';

/**
 * By the definitions of MIL-STD-2165 (task 203), which IEEE Std 1522 states for models, recalled from memory: detected is the sum of
 * the failure rates of the faults detected by the sum of all, isolated to at most L the sum of those isolated to a group of at most L
 * by the sum of those detected. The numbers are worked out by hand.
 */
describe('the figures of testability', () => {
  const figures = figuresOf([
    { weight: 6, groupSize: 1 },
    { weight: 2, groupSize: 3 },
    { weight: 1, groupSize: 1 },
    { weight: 3 },
  ]);
  const of = (part: number, whole: number) => ({ part, whole, fraction: part / whole });

  it('tell the fraction detected, counted and weighted, with what is divided by what', () => {
    expect(figures.detected).toEqual({ counted: of(3, 4), weighted: of(9, 12) });
  });

  it('tell the fraction isolated to groups of at most each size, by the faults detected and by all', () => {
    const one = {
      ofDetected: { counted: of(2, 3), weighted: of(7, 9) },
      ofAll: { counted: of(2, 4), weighted: of(7, 12) },
    };
    const three = {
      ofDetected: { counted: of(3, 3), weighted: of(9, 9) },
      ofAll: { counted: of(3, 4), weighted: of(9, 12) },
    };
    expect(figures.isolated).toEqual([
      { groupSize: 1, ...one },
      { groupSize: 2, ...one },
      { groupSize: 3, ...three },
    ]);
    expect(figures.meanGroupSize).toEqual({ counted: 5 / 3, weighted: 13 / 9 });
  });

  it('say nothing of groups where nothing is detected, and divide by nothing nowhere', () => {
    const zero = { counted: { part: 0, whole: 0, fraction: 0 }, weighted: { part: 0, whole: 0, fraction: 0 } };
    expect(figuresOf([])).toEqual({ detected: zero, isolated: [], meanGroupSize: undefined });
    expect(figuresOf([{ weight: 0, groupSize: 1 }]).meanGroupSize).toEqual({ counted: 1, weighted: 1 });
  });
});
