import { likelihoods, outcomesOfAll, type Problem } from './problem.ts';

/**
 * A problem without what makes no difference: suspects that no test tells from one another are one item, tests that tell the same are
 * one, that of the fewest minutes, and a test that tells nothing is left out. Items stand heaviest first; their weights sum to 1.
 */
export interface Core {
  readonly items: readonly Item[];
  /** The owner of each item. */
  readonly owners: readonly number[];
  readonly tests: readonly CoreTest[];
  /** Of any test. */
  readonly mostOutcomes: number;
}

export interface Item {
  readonly weight: number;
  /** Dense from 0. An item of several owners has one that stands for just these, as nothing will ever tell between them. */
  readonly owner: number;
  /** Its suspects, by their place in the problem. */
  readonly suspects: readonly number[];
}

export interface CoreTest {
  /** Its place in the problem. */
  readonly index: number;
  readonly minutes: number;
  /** The outcomes as the problem numbers them; below, they are told by their place here. */
  readonly outcomes: readonly number[];
  /** For every item the set of outcomes that it may give, by its place in `sets`. */
  readonly setOf: readonly number[];
  /** First each outcome alone, so that the place of such a set is its outcome; then those of several. */
  readonly sets: readonly (readonly number[])[];
  /** Some item may give more than one outcome. */
  readonly open: boolean;
}

/** Takes a problem to its core, in O(suspects × tests). */
export function coreOf(problem: Problem): Core {
  const all = problem.tests.map((_, index) => readTest(problem, index));
  const items = mergeTwins(problem, all);
  const seen = new Map<string, CoreTest>();
  for (const test of all) {
    const narrowed = { ...test, setOf: items.map(item => test.setOf[item.suspects[0]!]!) };
    if (narrowed.setOf.every(set => set === narrowed.setOf[0])) continue;
    const same = meaning(narrowed);
    const known = seen.get(same);
    if (!known || narrowed.minutes < known.minutes) seen.set(same, narrowed);
  }
  const tests = [...seen.values()].sort((a, b) => a.index - b.index);
  const owners = items.map(item => item.owner);
  return { items, owners, tests, mostOutcomes: Math.max(0, ...tests.map(test => test.outcomes.length)) };
}

function readTest({ suspects, tests }: Problem, index: number): CoreTest {
  const test = tests[index]!;
  const outcomes = outcomesOfAll(test);
  const placeOf = new Map(outcomes.map((outcome, place) => [outcome, place]));
  const sets = outcomes.map((_, place) => [place]);
  const known = new Map(sets.map((set, place) => [set.join(), place]));
  const setOf = suspects.map((_, suspect) => {
    const given = test.outcomes[suspect] ?? [];
    const places = given.length > 0 ? given.map(outcome => placeOf.get(outcome)!) : outcomes.map((_, place) => place);
    const set = [...new Set(places)].sort((a, b) => a - b);
    const key = set.join();
    const place = known.get(key) ?? sets.push(set) - 1;
    known.set(key, place);
    return place;
  });
  return { index, minutes: test.minutes, outcomes, setOf, sets, open: sets.length > outcomes.length };
}

function mergeTwins(problem: Problem, tests: readonly CoreTest[]): Item[] {
  const weights = likelihoods(problem);
  const ownerIds = new Map<string, number>();
  const items = twins(problem.suspects.length, tests).map(suspects => {
    const owners = JSON.stringify([...new Set(suspects.map(suspect => problem.suspects[suspect]!.owner))].sort());
    if (!ownerIds.has(owners)) ownerIds.set(owners, ownerIds.size);
    const weight = suspects.reduce((sum, suspect) => sum + weights[suspect]!, 0);
    return { weight, owner: ownerIds.get(owners)!, suspects };
  });
  return items.sort((a, b) => b.weight - a.weight || a.suspects[0]! - b.suspects[0]!);
}

/** The suspects in groups, two in one group where every test gives them the same set. */
function twins(count: number, tests: readonly CoreTest[]): number[][] {
  const groups: number[][] = [];
  tests.reduce(refined, new Array<number>(count).fill(0)).forEach((group, suspect) => {
    groups[group] ??= [];
    groups[group].push(suspect);
  });
  return groups;
}

/** For each place the number of its class, dense from 0, after each class was cut by the sets that a test gives. */
export function refined(classOf: readonly number[], { setOf, sets }: Pick<CoreTest, 'setOf' | 'sets'>): number[] {
  const ids = new Map<number, number>();
  return classOf.map((known, place) => {
    const key = known * sets.length + setOf[place]!;
    if (!ids.has(key)) ids.set(key, ids.size);
    return ids.get(key)!;
  });
}

/** Equal for tests that differ in the numbers of their outcomes alone. */
function meaning({ setOf, sets }: CoreTest): string {
  const names = new Map<number, number>();
  const nameOf = (outcome: number) => {
    if (!names.has(outcome)) names.set(outcome, names.size);
    return names.get(outcome)!;
  };
  const wordOf = (set: readonly number[]) => set.map(nameOf).sort((a, b) => a - b);
  return setOf.map(set => wordOf(sets[set]!).join('+')).join();
}
