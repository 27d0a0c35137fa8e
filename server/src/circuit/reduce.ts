import type { Ranged } from '../base/ranged.ts';
import type { Branch, Core, Part } from './core.ts';

/**
 * Joins branches in series and in parallel until none is left to join. The reading stays what it was:
 *
 *     series    R = R1 + R2              emf = emf1 + emf2     at a node where nothing else meets
 *     parallel  R = R1 R2 / (R1 + R2)    same emf              between the same two nodes
 *
 * Branches with different emfs in parallel stay apart: joined, their emf would hang on both resistances and an extreme
 * of the reading need not be an extreme of the joined resistance.
 */
export function reduce(core: Core): Core {
  const pinned = new Set<number>(core.leads ?? []);
  for (const source of core.sources) {
    for (const [node] of source.injected) pinned.add(node);
  }
  const reducer = new Reducer(core, pinned);
  for (const branch of core.branches) reducer.add(branch);
  reducer.run();
  return renumber(core, reducer.branches());
}

class Reducer {
  private readonly at: Set<Branch>[];
  private readonly loops: Branch[] = [];
  private readonly twins = new Map<string, Branch>();
  private readonly pinned: ReadonlySet<number>;
  private readonly waiting: number[] = [];

  constructor(core: Core, pinned: ReadonlySet<number>) {
    this.pinned = pinned;
    this.at = Array.from({ length: core.nodeCount }, () => new Set<Branch>());
  }

  /** Adds a branch, joined with one that lies parallel to it already. */
  add(branch: Branch): void {
    if (branch.a === branch.b) {
      // Its current flows in a ring of its own and touches a reading only where that is measured.
      if (branch.probe !== 0) this.loops.push(branch);
      return;
    }
    const turned = branch.a < branch.b ? branch : reversed(branch);
    const key = keyOf(turned);
    const twin = this.twins.get(key);
    const joined = twin ? { ...turned, part: inParallel(twin.part, turned.part) } : turned;
    if (twin) this.remove(twin);
    this.twins.set(key, joined);
    for (const node of [joined.a, joined.b]) {
      this.at[node]!.add(joined);
      this.waiting.push(node);
    }
  }

  /** Joins series branches, which may make new parallel ones, which may make new series ones. */
  run(): void {
    for (let node = this.waiting.pop(); node !== undefined; node = this.waiting.pop()) {
      if (this.pinned.has(node) || this.at[node]!.size > 2) continue;
      const [first, second] = this.at[node]!;
      // A single branch leads nowhere and carries nothing.
      if (first) this.remove(first);
      if (!first || !second) continue;
      this.remove(second);
      this.add(inSeries(first.b === node ? first : reversed(first), second.a === node ? second : reversed(second)));
    }
  }

  branches(): Branch[] {
    return [...this.loops, ...this.twins.values()];
  }

  private remove(branch: Branch): void {
    this.twins.delete(keyOf(branch));
    for (const node of [branch.a, branch.b]) {
      this.at[node]!.delete(branch);
      this.waiting.push(node);
    }
  }
}

function keyOf({ a, b, probe, emf }: Branch): string {
  return `${a} ${b} ${probe} ${emf.some(factor => factor !== 0) ? emf.join() : ''}`;
}

function reversed({ a, b, part, emf, probe }: Branch): Branch {
  return { a: b, b: a, part, emf: emf.map(factor => (factor === 0 ? 0 : -factor)), probe: probe === 0 ? 0 : -probe };
}

function inSeries(first: Branch, second: Branch): Branch {
  return {
    a: first.a,
    b: second.b,
    part: {
      kind: 'series',
      parts: [...membersOf('series', first.part), ...membersOf('series', second.part)],
      ohms: combine(first.part.ohms, second.part.ohms, (r1, r2) => r1 + r2),
    },
    emf: first.emf.map((factor, k) => factor + second.emf[k]!),
    probe: first.probe + second.probe,
  };
}

function inParallel(first: Part, second: Part): Part {
  return {
    kind: 'parallel',
    parts: [...membersOf('parallel', first), ...membersOf('parallel', second)],
    ohms: combine(first.ohms, second.ohms, parallelOhms),
  };
}

/** Keeps groups flat: a chain of three is one group of three. */
function membersOf(kind: 'series' | 'parallel', part: Part): readonly Part[] {
  return part.kind === kind ? part.parts : [part];
}

function parallelOhms(r1: number, r2: number): number {
  return r1 === 0 || r2 === 0 ? 0 : 1 / (1 / r1 + 1 / r2);
}

function combine(first: Ranged, second: Ranged, rule: (r1: number, r2: number) => number): Ranged {
  return {
    low: rule(first.low, second.low),
    nominal: rule(first.nominal, second.nominal),
    high: rule(first.high, second.high),
  };
}

/** The core with only the nodes that are left. */
function renumber(core: Core, branches: readonly Branch[]): Core {
  const number = new Map<number, number>();
  const numbered = (node: number) => {
    if (!number.has(node)) number.set(node, number.size);
    return number.get(node)!;
  };
  return {
    branches: branches.map(branch => ({ ...branch, a: numbered(branch.a), b: numbered(branch.b) })),
    sources: core.sources.map(source => ({
      ...source,
      injected: source.injected.map(([node, factor]) => [numbered(node), factor] as const),
    })),
    leads: core.leads && [numbered(core.leads[0]), numbered(core.leads[1])],
    nodeCount: number.size,
  };
}
