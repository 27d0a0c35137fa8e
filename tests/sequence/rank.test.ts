import { describe, expect, it } from 'vitest';
import { bestTree } from '../../server/src/sequence/best-tree.ts';
import type { Problem } from '../../server/src/sequence/problem.ts';
import { gains, rank } from '../../server/src/sequence/rank.ts';
import { randomFrom } from '../support/random-network.ts';
import { everyTree, plainMean } from './every-tree.ts';
import { randomProblem } from './problems.ts';

describe('the ranking of tests', () => {
  it('tells bits per minute of what has to be known in the end, and leaves out what tells nothing', () => {
    const problem: Problem = {
      suspects: ['wire', 'wire', 'relay', 'fuse'].map(owner => ({ weight: 1, owner })),
      tests: [
        { minutes: 4, outcomes: [[0], [0], [1], [1]] },
        { minutes: 1, outcomes: [[7], [7], [7], [7]] },
        // It parts the two of one owner as well, which is worth nothing.
        { minutes: 2, outcomes: [[0], [1], [0], [1]] },
        { minutes: 0, outcomes: [[0], [0], [0], [1]] },
        { minutes: 5, outcomes: [[1], [1], [0], [0]] },
      ],
    };
    const quarter = 2 - 0.75 * Math.log2(3);
    expect(rank(problem).map(({ test, bits, bitsPerMinute }) => [test, bits, bitsPerMinute])).toEqual([
      [3, expect.closeTo(quarter, 12), Number.POSITIVE_INFINITY],
      [0, expect.closeTo(1, 12), expect.closeTo(0.25, 12)],
      [2, expect.closeTo(0.5, 12), expect.closeTo(0.25, 12)],
    ]);
  });

  it('tells the mean minutes of the best of all trees that begin with a test', () => {
    const random = randomFrom(12);
    for (let round = 0; round < 400; round++) {
      const shape = { suspects: 4, tests: 4, perOwner: 1.3, outcomes: 2, open: 0.15, minutes: [1, 3] };
      const problem = randomProblem(random, shape);
      const trees = everyTree(problem);
      const ranked = rank(problem);
      for (const { test, total } of ranked) {
        const means = trees.filter(tree => tree.test === test).map(tree => plainMean(tree, problem));
        expect(total.atLeast).toBeCloseTo(Math.min(...means), 9);
        expect(total.atMost).toBe(total.atLeast);
      }
      expect(ranked.map(({ total, ...gain }) => gain)).toEqual(gains(problem));
      const totals = ranked.map(({ total }) => total.atMost);
      expect(bestTree(problem).minutes).toBeCloseTo(ranked.length > 0 ? Math.min(...totals) : 0, 9);
    }
  });

  it('tells less exactly with less effort, and never falsely', () => {
    const random = randomFrom(3);
    let open = 0;
    for (let round = 0; round < 30; round++) {
      const shape = { suspects: 12, tests: 8, perOwner: 1, outcomes: 2, open: 0, minutes: [1, 2] };
      const problem = randomProblem(random, shape);
      const exact = new Map(rank(problem).map(({ test, total }) => [test, total]));
      for (const { test, total } of rank(problem, { effort: 0 })) {
        const { atLeast, atMost } = exact.get(test)!;
        expect(atMost).toBeCloseTo(atLeast, 9);
        expect(total.atLeast).toBeLessThanOrEqual(atLeast + 1e-9);
        expect(total.atMost).toBeGreaterThanOrEqual(atLeast - 1e-9);
        if (total.atMost > total.atLeast) open++;
      }
    }
    expect(open).toBeGreaterThan(30);
  });
});
