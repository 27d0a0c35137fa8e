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
  /** The branches that meet at each node. */
  private readonly at: Branch[][] = [];
  private readonly loops: Branch[] = [];
  private readonly pinned: ReadonlySet<number>;
  private readonly waiting: number[] = [];

  constructor(core: Core, pinned: ReadonlySet<number>) {
    this.pinned = pinned;
    for (let node = 0; node < core.nodeCount; node++) this.at.push([]);
  }

  /** Adds a branch, joined with one that lies parallel to it already. */
  add(branch: Branch): void {
    if (branch.a === branch.b) {
      // Its current flows in a ring of its own and touches a reading only where that is measured.
      if (branch.probe !== 0) this.loops.push(branch);
      return;
    }
    const turned = branch.a < branch.b ? branch : reversed(branch);
    const [atA, atB] = [this.at[turned.a]!, this.at[turned.b]!];
    const twin = (atA.length < atB.length ? atA : atB).find(other => isParallel(other, turned));
    const joined = twin ? { ...turned, part: inParallel(twin.part, turned.part) } : turned;
    if (twin) this.remove(twin);
    atA.push(joined);
    atB.push(joined);
    this.waiting.push(turned.a, turned.b);
  }

  /** Joins series branches, which may make new parallel ones, which may make new series ones. */
  run(): void {
    for (let node = this.waiting.pop(); node !== undefined; node = this.waiting.pop()) {
      const here = this.at[node]!;
      if (here.length === 0 || here.length > 2 || this.pinned.has(node)) continue;
      const [first, second] = here;
      // A single branch leads nowhere and carries nothing.
      this.remove(first!);
      if (!second) continue;
      this.remove(second);
      this.add(inSeries(first!.b === node ? first! : reversed(first!), second.a === node ? second : reversed(second)));
    }
  }

  branches(): Branch[] {
    // A branch stands at both of its ends, and is taken at the first.
    return [...this.loops, ...this.at.flatMap((here, node) => here.filter(({ a }) => a === node))];
  }

  private remove(branch: Branch): void {
    for (const node of [branch.a, branch.b]) {
      const here = this.at[node]!;
      here.splice(here.indexOf(branch), 1);
      this.waiting.push(node);
    }
  }
}

/** Between the same two nodes in the same direction, driven alike and counted alike. */
function isParallel(one: Branch, other: Branch): boolean {
  if (one.a !== other.a || one.b !== other.b || one.probe !== other.probe) return false;
  if (one.emf === other.emf) return true;
  for (let k = 0; k < one.emf.length; k++) if (one.emf[k] !== other.emf[k]) return false;
  return true;
}

function reversed({ a, b, part, emf, probe }: Branch): Branch {
  const turned = isDead(emf) ? emf : emf.map(factor => (factor === 0 ? 0 : -factor));
  return { a: b, b: a, part, emf: turned, probe: probe === 0 ? 0 : -probe };
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
    emf: isDead(second.emf) ? first.emf : first.emf.map((factor, k) => factor + second.emf[k]!),
    probe: first.probe + second.probe,
  };
}

function isDead(emf: readonly number[]): boolean {
  for (let k = 0; k < emf.length; k++) if (emf[k] !== 0) return false;
  return true;
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
  const number = new Int32Array(core.nodeCount).fill(-1);
  let nodeCount = 0;
  const numbered = (node: number) => {
    if (number[node] === -1) number[node] = nodeCount++;
    return number[node]!;
  };
  const renumbered = branches.map(({ a, b, part, emf, probe }) => ({
    a: numbered(a),
    b: numbered(b),
    part,
    emf,
    probe,
  }));
  const sources = core.sources.map(source => ({
    ...source,
    injected: source.injected.map(([node, factor]) => [numbered(node), factor] as const),
  }));
  const leads = core.leads && ([numbered(core.leads[0]), numbered(core.leads[1])] as const);
  return { branches: renumbered, sources, leads, nodeCount };
}
