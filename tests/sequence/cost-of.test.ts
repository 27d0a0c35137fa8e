import { describe, expect, it } from 'vitest';
import { costOf } from '../../server/src/sequence/cost-of.ts';
import type { Problem, Step } from '../../server/src/sequence/problem.ts';

const problem: Problem = {
  suspects: [
    { weight: 3, owner: 'fuse' },
    { weight: 1, owner: 'relay' },
    { weight: 4, owner: 'joint' },
  ],
  tests: [
    { minutes: 2, outcomes: [[0], [1], [0, 1]] },
    { minutes: 5, outcomes: [[0], [1], [2]] },
    { minutes: 1, outcomes: [[], [], []] },
  ],
};
const end = (...suspects: number[]) => ({ suspects });

describe('what a given tree takes', () => {
  const shared: Step = {
    test: 1,
    branches: [0, 1, 2].map(outcome => ({ outcome, tree: end(outcome) })),
  };

  it('counts the mean by weight, the worst without, and for each step what comes there', () => {
    const tree: Step = {
      test: 0,
      branches: [
        { outcome: 0, tree: shared },
        { outcome: 1, tree: end(1, 2) },
      ],
    };
    expect(costOf(tree, problem)).toEqual({
      // Half of what is the joint ends after the first test.
      mean: 2 + (5 * (3 + 2)) / 8,
      worst: 7,
      stuck: 0,
      steps: [
        { step: shared, reached: 5 / 8, minutes: 25 / 8 },
        { step: tree, reached: 1, minutes: 2 },
      ],
    });
  });

  it('counts a step that several branches lead to once', () => {
    const tree: Step = { test: 0, branches: [0, 1].map(outcome => ({ outcome, tree: shared })) };
    const { steps, mean } = costOf(tree, problem);
    expect(mean).toBe(7);
    expect(steps.map(({ step, reached }) => [step.test, reached])).toEqual([
      [1, 1],
      [0, 1],
    ]);
  });

  it('lets a test that is done again show what it has shown before', () => {
    const again = (outcome: number): Step => ({ test: 0, branches: [{ outcome, tree: end() }] });
    const tree: Step = { test: 0, branches: [0, 1].map(outcome => ({ outcome, tree: again(outcome) })) };
    expect(costOf(tree, problem)).toMatchObject({ mean: 4, worst: 4, stuck: 0 });
  });

  it('tells how much comes to a step that has no branch for it', () => {
    const tree: Step = { test: 1, branches: [{ outcome: 2, tree: end(2) }] };
    expect(costOf(tree, problem)).toMatchObject({ mean: 5, worst: 5, stuck: 0.5 });
  });

  it('takes a step that tells nothing as one that has a single outcome', () => {
    expect(costOf({ test: 2, branches: [{ outcome: 0, tree: shared }] }, problem)).toMatchObject({ mean: 6, stuck: 0 });
  });
});
