import type { Problem, Test, Tree } from '../../server/src/sequence/problem.ts';

/**
 * Every tree that the rule of `Problem` allows, built plainly one after the other: no memory of sets, no bound, nothing left out. Slow,
 * and shares no code with what it checks.
 */
export function everyTree(problem: Problem): Tree[] {
  return treesFrom(
    problem,
    problem.suspects.map((_, suspect) => suspect),
    [],
  );
}

function treesFrom(problem: Problem, left: readonly number[], done: readonly Test[]): Tree[] {
  const worthDoing = problem.tests.filter(test => !done.includes(test) && isWorthDoing(problem, left, done, test));
  if (worthDoing.length === 0) return [{ suspects: left }];
  return worthDoing.flatMap(test => {
    const outcomes = [...new Set(left.flatMap(suspect => shown(test, suspect)))].sort((a, b) => a - b);
    const branches = outcomes.map(outcome => {
      const after = left.filter(suspect => shown(test, suspect).includes(outcome));
      return treesFrom(problem, after, [...done, test]).map(tree => ({ outcome, tree }));
    });
    return combinations(branches).map(branches => ({ test: problem.tests.indexOf(test), branches }));
  });
}

function isWorthDoing(problem: Problem, left: readonly number[], done: readonly Test[], test: Test): boolean {
  return left.some(a =>
    left.some(b => {
      if (endsAlike(problem, a) === endsAlike(problem, b)) return false;
      const [one, other] = [shown(test, a), shown(test, b)];
      const isSure = !one.some(outcome => other.includes(outcome));
      const isLuck = differs(test, a, b) && !done.some(earlier => differs(earlier, a, b));
      return isSure || isLuck;
    }),
  );
}

/** The owners of all suspects that no test tells from this one. */
function endsAlike({ suspects, tests }: Problem, suspect: number): string {
  const alike = suspects.filter((_, other) => !tests.some(test => differs(test, suspect, other)));
  return [...new Set(alike.map(({ owner }) => owner))].sort().join();
}

function differs(test: Test, a: number, b: number): boolean {
  return shown(test, a).join() !== shown(test, b).join();
}

function shown(test: Test, suspect: number): number[] {
  const candidates = [test.outcomes[suspect]!, test.outcomes.flat(), [0]];
  return [...new Set(candidates.find(outcomes => outcomes.length > 0))].sort((a, b) => a - b);
}

function combinations<T>(lists: readonly (readonly T[])[]): T[][] {
  return lists.reduce<T[][]>((all, list) => all.flatMap(some => list.map(one => [...some, one])), [[]]);
}

/** Mean minutes, counted by following each suspect with what it shows in all tests, in every combination of that. */
export function plainMean(tree: Tree, { suspects, tests }: Problem): number {
  const total = suspects.reduce((sum, { weight }) => sum + weight, 0);
  return suspects.reduce((mean, { weight }, suspect) => {
    const machines = combinations(tests.map(test => shown(test, suspect)));
    const minutes = machines.reduce((sum, machine) => sum + minutesOf(tree, machine, tests), 0) / machines.length;
    return mean + (minutes * (total > 0 ? weight : 1)) / (total > 0 ? total : suspects.length);
  }, 0);
}

function minutesOf(tree: Tree, machine: readonly number[], tests: readonly Test[]): number {
  if (tree.test === undefined) return 0;
  const branch = tree.branches.find(({ outcome }) => outcome === machine[tree.test])!;
  return tests[tree.test]!.minutes + minutesOf(branch.tree, machine, tests);
}
