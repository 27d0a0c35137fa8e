import { describe, expect, it } from 'vitest';
import { bandsFor } from '../../server/src/planning/draft/bands.ts';
import type { Told } from '../../server/src/planning/outcomes.ts';

/** Ranges by suspect, the good machine last. */
function told(...ranges: (readonly [number, number] | string)[]): Told {
  const outcomes = ranges.map(one =>
    typeof one === 'string' ? { word: one } : { range: { low: one[0], high: one[1] } },
  );
  return { outcomes, by: ranges.map((_, i) => i) };
}

describe('bands of a measuring step', () => {
  it('part what is right from what is under it in the middle between the two', () => {
    const found = bandsFor(told([0, 1], [11, 13]), 1)!;
    expect(found.bands.within.low).toBeGreaterThan(1);
    expect(found.bands.within.low).toBeLessThan(11);
    expect(found.bands.others).toEqual([{ key: 'otherwise', volts: undefined }]);
    expect(found.by).toEqual([1, 0]);
  });

  it('tell the outermost by a number of its own, and what lies between by all else', () => {
    const found = bandsFor(told([0, 0.5], [5, 6], [11, 13]), 2)!;
    expect(found.bands.others.map(({ key }) => key)).toEqual(['below', 'otherwise']);
    const [below] = found.bands.others;
    expect(below!.volts).toBeGreaterThan(0.5);
    expect(below!.volts).toBeLessThan(5);
    expect(found.by).toEqual([1, 2, 0]);
  });

  it('have one on either side of what is right', () => {
    const found = bandsFor(told([0, 0.5], [11, 13], [1.6, 2]), 2)!;
    expect(found.bands.others.map(({ key }) => key)).toEqual(['below', 'otherwise']);
    expect(found.by).toEqual([1, 2, 0]);
  });

  it('put what shows no number with all else', () => {
    const found = bandsFor(told('not settled', [11, 13]), 1)!;
    expect(found.by).toEqual([1, 0]);
  });

  it('need a number of the good machine', () => {
    expect(bandsFor(told([0, 1], 'not settled'), 1)).toBeUndefined();
  });
});
