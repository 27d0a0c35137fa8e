import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { wireOhms } from '../../server/src/circuit/conductor/wire.ts';
import { fuseOhms } from '../../server/src/circuit/fuse-table.ts';

const size = fc.oneof(
  fc.double({ min: 0.1, max: 120, noNaN: true }).map(areaMm2 => ({ areaMm2 })),
  fc.integer({ min: -3, max: 40 }).map(gauge => ({ gauge })),
);
const lengthM = fc.double({ min: 0.01, max: 100, noNaN: true });
const temperatureC = fc.integer({ min: -60, max: 150 });

describe('the resistance of a wire', () => {
  test('its ends are in order and above zero', () => {
    fc.assert(
      fc.property(size, lengthM, temperatureC, fc.constantFrom('solid', 'stranded'), (of, length, at, strands) => {
        const { low, nominal, high } = wireOhms(of, length, at, strands);
        expect(low).toBeGreaterThan(0);
        expect(low).toBeLessThanOrEqual(nominal);
        expect(nominal).toBeLessThanOrEqual(high);
      }),
    );
  });

  test('two lengths in series are the whole', () => {
    fc.assert(
      fc.property(size, lengthM, lengthM, temperatureC, (of, one, other, at) => {
        const sum = wireOhms(of, one, at).high + wireOhms(of, other, at).high;
        expect(sum / wireOhms(of, one + other, at).high).toBeCloseTo(1, 9);
      }),
    );
  });

  test('it rises with the temperature', () => {
    fc.assert(
      fc.property(size, temperatureC, (of, at) => {
        expect(wireOhms(of, 1, at + 1).nominal).toBeGreaterThan(wireOhms(of, 1, at).nominal);
      }),
    );
  });
});

describe('the cold resistance of a fuse', () => {
  test('it falls as the rating rises, between the rows of the table and beyond them', () => {
    const ratings = [1, 2, 3, 4, 5, 6, 7.5, 10, 12, 15, 20, 25, 30, 35, 40, 80];
    const ohms = ratings.map(ratingA => fuseOhms(ratingA)?.nominal ?? 0);
    expect(ohms).toEqual([...ohms].sort((a, b) => b - a));
    expect(ohms.every(value => value > 0.0001 && value < 1)).toBe(true);
  });

  test('there is none without a rating', () => {
    expect(fuseOhms(undefined)).toBeUndefined();
    expect(fuseOhms(0)).toBeUndefined();
    expect(fuseOhms(Number.NaN)).toBeUndefined();
  });
});
