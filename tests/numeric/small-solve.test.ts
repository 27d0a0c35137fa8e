import { expect, it } from 'vitest';
import { solveSmall } from '../../server/src/numeric/small-solve.ts';
import { randomFrom } from '../support/random-network.ts';

const rowsOf = (rows: number[][]) => rows.map(row => Float64Array.from(row));

it('gives what the equations give back', () => {
  const draw = randomFrom(51);
  for (let round = 0; round < 200; round++) {
    const size = 1 + (round % 8);
    const rows = rowsOf(Array.from({ length: size }, () => Array.from({ length: size }, () => draw() - 0.5)));
    const wanted = Float64Array.from({ length: size }, () => draw() * 10 - 5);
    const right = Float64Array.from(rows, row => row.reduce((sum, entry, at) => sum + entry * wanted[at]!, 0));
    const found = solveSmall(rows, right, new Float64Array(size).fill(1));
    // A random matrix may be nearly singular, which is told rather than answered.
    found?.forEach((value, at) => {
      expect(value).toBeCloseTo(wanted[at]!, 7);
    });
    if (size === 1) expect(found !== undefined).toBe(Math.abs(rows[0]![0]!) >= 1e-4);
  }
});

it('finds its way around a zero where a pivot would stand', () => {
  expect([
    ...solveSmall(
      rowsOf([
        [0, 2],
        [4, 0],
      ]),
      Float64Array.of(6, 8),
      [2, 4],
    )!,
  ]).toEqual([2, 3]);
});

it('gives nothing where the digits of a pivot have cancelled', () => {
  expect(
    solveSmall(
      rowsOf([
        [1, 1],
        [1, 1 + 1e-6],
      ]),
      Float64Array.of(1, 2),
      [1, 1],
    ),
  ).toBeUndefined();
  expect(solveSmall(rowsOf([[1e-6]]), Float64Array.of(1), [1])).toBeUndefined();
  expect(solveSmall(rowsOf([[Number.NaN]]), Float64Array.of(1), [1])).toBeUndefined();
});
