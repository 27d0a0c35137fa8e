import { bestTree } from '../../server/src/sequence/best-tree.ts';
import { randomProblem } from '../sequence/problems.ts';
import { randomFrom } from '../support/random-network.ts';

export interface Order {
  suspects: number;
  tests: number;
  ms: number;
  minutes: number;
  lowerBound: number;
  optimal: boolean;
}

/** The best order, or a good one with its bound, for random problems of several sizes; tests of 1, 2 and 5 minutes. */
export function orders(): Order[] {
  const sizes = [
    [20, 40],
    [20, 200],
    [60, 40],
    [60, 200],
    [300, 40],
    [300, 100],
    [300, 200],
  ] as const;
  return sizes.map(([suspects, tests]) => {
    const shape = { suspects, tests, perOwner: 1.6, outcomes: 2, open: 0, minutes: [1, 2, 5] };
    const problem = randomProblem(randomFrom(suspects + tests), shape);
    const before = performance.now();
    const { minutes, lowerBound, optimal } = bestTree(problem);
    return { suspects, tests, ms: performance.now() - before, minutes, lowerBound, optimal };
  });
}
