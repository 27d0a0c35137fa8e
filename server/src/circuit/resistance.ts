import { UnionFind } from '../graph/union-find.ts';
import { planElimination, StarMesh } from '../numeric/star-mesh.ts';
import type { Core } from './core.ts';

/** The resistance between two nodes of a core without sources, every branch at the same end of its range. */
export interface TwoTerminal {
  ohms: number;
  /** How it moves with each branch resistance: `d ohms / d R_j = (branch current at 1 A through the leads)^2`. */
  perOhm: Float64Array;
}

export function resistanceBetween(
  core: Core,
  leads: readonly [number, number],
  end: 'low' | 'nominal' | 'high',
): TwoTerminal {
  const ohms = core.branches.map(branch => branch.part.ohms[end]);
  // A range may begin at nothing; there the branch is an ideal connection.
  const nodes = new UnionFind(core.nodeCount);
  core.branches.forEach(({ a, b }, j) => {
    if (ohms[j] === 0) nodes.union(a, b);
  });
  const { of, count } = nodes.classes();
  const [red, black] = [of[leads[0]]!, of[leads[1]]!];
  const from = core.branches.map(({ a }) => of[a]!);
  const to = core.branches.map(({ b }) => of[b]!);
  const mesh = new StarMesh(
    // With black as the reference nothing is subtracted from the result.
    planElimination(count, from, to, black),
    ohms.map(r => (r === 0 ? 0 : 1 / r)),
  );
  const injected = new Float64Array(count);
  injected[red] = red === black ? 0 : 1;
  const potential = mesh.solve(injected);
  const perOhm = Float64Array.from(ohms, (r, j) =>
    r === 0 ? 1 : ((potential[from[j]!]! - potential[to[j]!]!) / r) ** 2,
  );
  return { ohms: potential[red]!, perOhm };
}
