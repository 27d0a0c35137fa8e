import { describe, expect, it } from 'vitest';
import { bestTree } from '../../server/src/sequence/best-tree.ts';
import { Bound } from '../../server/src/sequence/bound.ts';
import { coreOf } from '../../server/src/sequence/core.ts';
import { costOf } from '../../server/src/sequence/cost-of.ts';
import type { Problem, Tree } from '../../server/src/sequence/problem.ts';
import { rank } from '../../server/src/sequence/rank.ts';
import { start } from '../../server/src/sequence/state.ts';
import published from '../reference/testability.json' with { type: 'json' };

/** The data are recalled from memory; the published optimum was computed anew from them and agrees. */
const [example] = published.examples;
const { states, prior, tests, cost, D } = example!;
const problem: Problem = {
  suspects: states.map((owner, state) => ({ owner, weight: prior[state]! })),
  tests: cost.map((minutes, test) => ({ minutes, outcomes: D.map(row => [row[test]!]) })),
};

describe(`six states and five tests: ${example!.citation}`, () => {
  it('the best order takes 2.18, by the tree of the reference', () => {
    const found = bestTree(problem);
    expect(found.minutes).toBeCloseTo(example!.optimal_expected_cost, 12);
    expect(named(found.tree)).toEqual(example!.optimal_tree);
    expect(found).toMatchObject({ optimal: true, lowerBound: found.minutes, ambiguous: [] });
    expect(costOf(found.tree, problem)).toMatchObject({ worst: 3, stuck: 0 });
  });

  it('what tells the most in one step takes 2.86, and is not said to be the best', () => {
    const ranked = rank(problem);
    const totals = ranked.map(({ test, total }) => [tests[test], total.atLeast, total.atMost]);
    expect(totals[0]).toEqual(['t1', expect.closeTo(2.86, 12), expect.closeTo(2.86, 12)]);
    expect(Math.min(...ranked.map(({ total }) => total.atMost))).toBeCloseTo(2.18, 12);
    const greedy = byOneStep(problem.suspects.map((_, suspect) => suspect));
    expect(costOf(greedy, problem).mean).toBeCloseTo(example!.greedy_information_gain_cost, 12);
    expect(named(greedy)).toEqual(example!.greedy_information_gain_tree);
  });

  it('no tree gets below the bound that is found without looking at any', () => {
    const core = coreOf(problem);
    expect(new Bound(core).of(start(core))).toBeCloseTo(example!.huffman_lower_bound, 12);
  });
});

/** The tree that takes the first of the ranking again and again. */
function byOneStep(left: readonly number[]): Tree {
  const [first] = rank({
    suspects: left.map(suspect => problem.suspects[suspect]!),
    tests: problem.tests.map(test => ({ ...test, outcomes: left.map(suspect => test.outcomes[suspect]!) })),
  });
  if (!first) return { suspects: left };
  const after = (outcome: number) => left.filter(suspect => D[suspect]![first.test] === outcome);
  return { test: first.test, branches: [0, 1].map(outcome => ({ outcome, tree: byOneStep(after(outcome)) })) };
}

/** A tree in the words of the reference, where outcome 1 is a test that fails. */
function named(tree: Tree): unknown {
  if (tree.test === undefined) return states[tree.suspects[0]!];
  const words = tree.branches.map(({ outcome, tree }) => [outcome === 1 ? 'fail' : 'pass', named(tree)]);
  return { [tests[tree.test]!]: Object.fromEntries(words) };
}
