import { likelihoods, outcomesOf, type Problem, type Step, type Tree } from './problem.ts';

export interface Cost {
  /** Mean minutes to where a way ends. */
  readonly mean: number;
  /** The most minutes that a suspect may take, however unlikely it is. */
  readonly worst: number;
  /** Every step that some suspect comes to, that which costs the most first. */
  readonly steps: readonly StepCost[];
  /** How much of all that is likely comes to a step that has no branch for it, from 0 to 1. */
  readonly stuck: number;
}

export interface StepCost {
  readonly step: Step;
  /** How likely it is to be done, from 0 to 1. */
  readonly reached: number;
  /** Its part of the mean. */
  readonly minutes: number;
}

/**
 * What a given tree takes, whoever made it. A step that several branches lead to counts once, with all that comes there. A test that is
 * done again takes its minutes again and shows what it has shown before.
 */
export function costOf(tree: Tree, problem: Problem): Cost {
  const reached = new Map<Step, number>();
  let [worst, stuck] = [0, 0];

  const walk = (
    node: Tree,
    suspect: number,
    weight: number,
    minutes: number,
    shown: ReadonlyMap<number, number>,
  ): void => {
    if (node.test === undefined) {
      worst = Math.max(worst, minutes);
      return;
    }
    reached.set(node, (reached.get(node) ?? 0) + weight);
    const test = problem.tests[node.test]!;
    const known = shown.get(node.test);
    const outcomes = known === undefined ? outcomesOf(test, suspect) : [known];
    for (const outcome of outcomes) {
      const branch = node.branches.find(branch => branch.outcome === outcome);
      const [share, soFar] = [weight / outcomes.length, minutes + test.minutes];
      if (branch) walk(branch.tree, suspect, share, soFar, new Map(shown).set(node.test, outcome));
      else {
        worst = Math.max(worst, soFar);
        stuck += share;
      }
    }
  };

  likelihoods(problem).forEach((weight, suspect) => {
    walk(tree, suspect, weight, 0, new Map());
  });
  const steps = [...reached].map(([step, share]) => ({
    step,
    reached: share,
    minutes: share * problem.tests[step.test]!.minutes,
  }));
  return {
    mean: steps.reduce((sum, step) => sum + step.minutes, 0),
    worst,
    steps: steps.sort((a, b) => b.minutes - a.minutes || a.step.test - b.step.test),
    stuck,
  };
}
