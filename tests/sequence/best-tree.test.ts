import { describe, expect, it } from 'vitest';
import { bestTree } from '../../server/src/sequence/best-tree.ts';
import { costOf } from '../../server/src/sequence/cost-of.ts';
import type { Problem, Tree } from '../../server/src/sequence/problem.ts';
import { randomFrom } from '../support/random-network.ts';
import { everyTree, plainMean } from './every-tree.ts';
import { randomProblem } from './problems.ts';

const kinds = {
  'one outcome each': { perOwner: 1, outcomes: 2, open: 0, minutes: [1] },
  'several suspects of an owner': { perOwner: 2, outcomes: 2, open: 0, minutes: [1, 2, 5] },
  'tests of three outcomes, some that take no time': { perOwner: 1.5, outcomes: 3, open: 0, minutes: [0, 1, 4] },
  'outcomes that are open': { perOwner: 1.3, outcomes: 2, open: 0.3, minutes: [1, 3] },
  'three outcomes that are open': { perOwner: 1.3, outcomes: 3, open: 0.2, minutes: [1, 2] },
};

describe('the best tree', () => {
  for (const [name, kind] of Object.entries(kinds)) {
    it(`takes the mean minutes of the best of all trees: ${name}`, () => {
      const random = randomFrom(4);
      let more = 0;
      for (let round = 0; round < 400; round++) {
        const suspects = 1 + Math.floor(random() * 5);
        const problem = randomProblem(random, { suspects, tests: Math.floor(random() * 5), ...kind });
        const trees = everyTree(problem);
        const least = Math.min(...trees.map(tree => plainMean(tree, problem)));
        const found = bestTree(problem);
        expect(found.optimal).toBe(true);
        expect(found.minutes).toBeCloseTo(least, 9);
        expect(plainMean(found.tree, problem)).toBeCloseTo(least, 9);
        expect(trees.map(tree => JSON.stringify(tree))).toContain(JSON.stringify(found.tree));
        if (trees.length > 1) more++;
      }
      expect(more).toBeGreaterThan(100);
    });
  }

  it('has a bound that no tree gets below, and is as good as the best or worse, whatever the effort', () => {
    const random = randomFrom(8);
    const better = { tree: 0, bound: 0 };
    for (const kind of Object.values(kinds)) {
      for (let round = 0; round < 12; round++) {
        const problem = randomProblem(random, { suspects: 20, tests: 12, ...kind });
        const best = bestTree(problem, { effort: 1e7 });
        expect(best.optimal).toBe(true);
        for (const effort of [0, 100, 1000]) {
          const found = bestTree(problem, { effort });
          expect(found.lowerBound).toBeLessThanOrEqual(best.minutes + 1e-9);
          expect(found.minutes).toBeGreaterThanOrEqual(best.minutes - 1e-9);
          expect(costOf(found.tree, problem).mean).toBeCloseTo(found.minutes, 9);
          if (found.optimal) expect(found.minutes).toBeCloseTo(best.minutes, 9);
          if (found.minutes > best.minutes + 1e-9) better.tree++;
          if (!found.optimal) better.bound++;
        }
      }
    }
    // Otherwise nothing above was put to the test.
    expect(better.tree).toBeGreaterThan(20);
    expect(better.bound).toBeGreaterThan(100);
  });

  it('is the same every time, and complete when it is cancelled', () => {
    const problem = randomProblem(randomFrom(2), { suspects: 30, tests: 25, ...kinds['outcomes that are open'] });
    const found = bestTree(problem, { effort: 1e5 });
    expect(bestTree(problem, { effort: 1e5 })).toEqual(found);
    const cancelled = bestTree(problem, { cancelled: () => true });
    expect(cancelled.optimal).toBe(false);
    expect(costOf(cancelled.tree, problem).stuck).toBe(0);
    expect(cancelled.minutes).toBeGreaterThanOrEqual(found.lowerBound);
  });

  it('goes on only while owners differ, and tells where no test parts them', () => {
    const problem: Problem = {
      suspects: ['wire', 'wire', 'relay', 'fuse'].map(owner => ({ weight: 1, owner })),
      tests: [
        { minutes: 2, outcomes: [[0], [0], [1], [1]] },
        { minutes: 1, outcomes: [[0], [1], [0], [0]] },
      ],
    };
    const ambiguous = { suspects: [2, 3] };
    const tree: Tree = {
      test: 0,
      branches: [
        { outcome: 0, tree: { suspects: [0, 1] } },
        { outcome: 1, tree: ambiguous },
      ],
    };
    expect(bestTree(problem)).toEqual({ tree, minutes: 2, lowerBound: 2, optimal: true, ambiguous: [ambiguous] });
  });

  it('tries its luck with tolerances once', () => {
    const luck = { minutes: 1, outcomes: [[0, 1], [0]] };
    const problem: Problem = {
      suspects: ['joint', 'nothing'].map(owner => ({ weight: 1, owner })),
      tests: [luck, { ...luck, minutes: 2, outcomes: [[1], [0, 1]] }],
    };
    expect(bestTree(problem).tree).toEqual({
      test: 0,
      branches: [
        { outcome: 0, tree: { suspects: [0, 1] } },
        { outcome: 1, tree: { suspects: [0] } },
      ],
    });
  });

  it('has nothing to do where nothing is to be told', () => {
    const none = { minutes: 0, lowerBound: 0, optimal: true, ambiguous: [] };
    expect(bestTree({ suspects: [], tests: [] })).toEqual({ tree: { suspects: [] }, ...none });
    const one = { suspects: [{ weight: 0, owner: 'fuse' }], tests: [{ minutes: 1, outcomes: [[]] }] };
    expect(bestTree(one)).toEqual({ tree: { suspects: [0] }, ...none });
  });
});
