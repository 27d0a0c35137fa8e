/**
 * The test sequencing problem: in which order tests are done so that what is at fault is known after the fewest minutes on average.
 *
 * What a suspect shows in a test may be open within tolerances. It then goes down each branch that it may take: with its whole weight
 * where the worst case counts, with its weight split evenly where the mean counts. A machine shows in a test what it has shown before,
 * so a test is never done twice on one way.
 *
 * **When testing ends.** A way ends as soon as all suspects left have one owner. Until then it goes on while some test surely parts two
 * suspects of different owners (they have no outcome in common), or may part two with luck that no earlier test on this way has tried
 * to part. Luck is tried once only, for in practice what hid a fault from one test hides it from the next.
 */
export interface Problem {
  readonly suspects: readonly Suspect[];
  readonly tests: readonly Test[];
}

/** Something that may be so: a fault, or that nothing is wrong. */
export interface Suspect {
  /** How likely against the others, 0 or more; the sum does not matter. Where every weight is 0, all suspects count the same. */
  readonly weight: number;
  /** What is done in the end if it is this one: suspects with one owner are never told apart. */
  readonly owner: string;
}

export interface Test {
  /** 0 or more. */
  readonly minutes: number;
  /** For every suspect the outcomes that it may give, any whole numbers; an empty list stands for every outcome of the test. */
  readonly outcomes: readonly (readonly number[])[];
}

/** What to do, from the first test to every ending. Tests and suspects are told by their place in the problem. */
export type Tree = Step | Ending;

export interface Step {
  readonly test: number;
  readonly branches: readonly Branch[];
}

export interface Branch {
  readonly outcome: number;
  readonly tree: Tree;
}

export interface Ending {
  readonly test?: undefined;
  /** All that may still be so, in the order of the problem. */
  readonly suspects: readonly number[];
}

/** The outcomes that a suspect may give in a test, each once, ascending. */
export function outcomesOf(test: Test, suspect: number): readonly number[] {
  const given = test.outcomes[suspect] ?? [];
  return given.length > 0 ? ascending(given) : outcomesOfAll(test);
}

/** Every outcome that a test has, ascending; 0 alone where no suspect gives one. */
export function outcomesOfAll(test: Test): readonly number[] {
  const all = ascending(test.outcomes.flat());
  return all.length > 0 ? all : [0];
}

/** The weights of the suspects, brought to a sum of 1. */
export function likelihoods({ suspects }: Problem): number[] {
  const total = suspects.reduce((sum, suspect) => sum + suspect.weight, 0);
  return suspects.map(({ weight }) => (total > 0 ? weight / total : 1 / suspects.length));
}

function ascending(outcomes: readonly number[]): number[] {
  return [...new Set(outcomes)].sort((a, b) => a - b);
}
