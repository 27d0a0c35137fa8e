/**
 * Solves `A x = b` for the Laplacian `A` of a graph with positive conductances, by replacing one node after the other
 * (a star) by the mesh between its neighbours:
 *
 *     g_ij  +=  g_ik * g_jk / sum_l g_kl        for every pair i, j of neighbours of the node k taken out
 *
 * Nothing is ever subtracted, so each mesh conductance keeps almost all its digits however far the conductances are
 * apart: milliohms beside megohms cost no accuracy. The last node of every connected part is its reference with `x = 0`.
 *
 * The order of elimination depends on the graph alone: plan once, then factor for as many values as wanted.
 */
export interface EliminationPlan {
  readonly nodeCount: number;
  /** Nodes in the order in which they are taken out; references have no neighbours left. */
  readonly order: Int32Array;
  /** Where the neighbours of each position in `order` begin in `neighbours` and `slots`; one more stands behind the last. */
  readonly start: Int32Array;
  /** The neighbours left when a node is taken out, and the slots of the edges to them. */
  readonly neighbours: Int32Array;
  readonly slots: Int32Array;
  /** The slots of the pairs of those neighbours, node after node: (1,0) (2,0) (2,1) (3,0) and so on. */
  readonly meshSlots: Int32Array;
  /** Slot in which the conductance of each input edge is collected, -1 for a self-loop. */
  readonly edgeSlot: Int32Array;
  readonly slotCount: number;
}

/** Plans the elimination, least neighbours first. `reference`, if given, is kept to the end of its connected part. */
export function planElimination(
  nodeCount: number,
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  reference = -1,
): EliminationPlan {
  const links = new Links(nodeCount);
  const edgeSlot = new Int32Array(from.length);
  for (let edge = 0; edge < from.length; edge++) {
    edgeSlot[edge] = from[edge] === to[edge] ? -1 : links.slotBetween(from[edge]!, to[edge]!);
  }
  const order = new Int32Array(nodeCount);
  const start = new Int32Array(nodeCount + 1);
  const neighbours: number[] = [];
  const slots: number[] = [];
  const meshSlots: number[] = [];
  const queue = new FewestFirst(links.near, reference);
  for (let step = 0; step < nodeCount; step++) {
    const node = queue.take();
    order[step] = node;
    const around = links.near[node]!;
    for (let i = 0; i < around.length; i++) {
      neighbours.push(around[i]!);
      slots.push(links.slots[node]![i]!);
      links.remove(around[i]!, node);
    }
    start[step + 1] = neighbours.length;
    for (let i = 1; i < around.length; i++) {
      for (let j = 0; j < i; j++) meshSlots.push(links.slotBetween(around[i]!, around[j]!));
    }
    for (let i = 0; i < around.length; i++) queue.changed(around[i]!);
  }
  return {
    nodeCount,
    order,
    start,
    neighbours: Int32Array.from(neighbours),
    slots: Int32Array.from(slots),
    meshSlots: Int32Array.from(meshSlots),
    edgeSlot,
    slotCount: links.count,
  };
}

/** Which nodes are neighbours, and the slot of the edge between them. */
class Links {
  readonly near: number[][] = [];
  readonly slots: number[][] = [];
  count = 0;

  constructor(nodeCount: number) {
    for (let node = 0; node < nodeCount; node++) {
      this.near.push([]);
      this.slots.push([]);
    }
  }

  slotBetween(a: number, b: number): number {
    const [few, many] = this.near[a]!.length <= this.near[b]!.length ? [a, b] : [b, a];
    const at = this.near[few]!.indexOf(many);
    if (at >= 0) return this.slots[few]![at]!;
    this.near[a]!.push(b);
    this.near[b]!.push(a);
    this.slots[a]!.push(this.count);
    this.slots[b]!.push(this.count);
    return this.count++;
  }

  /** Takes a neighbour away from a node. */
  remove(from: number, neighbour: number): void {
    const near = this.near[from]!;
    const slots = this.slots[from]!;
    const at = near.indexOf(neighbour);
    near[at] = near[near.length - 1]!;
    slots[at] = slots[slots.length - 1]!;
    near.pop();
    slots.pop();
  }
}

/** Nodes by their number of neighbours. A node stands in the list of every number it once had; only the present one counts. */
class FewestFirst {
  readonly #near: readonly (readonly number[])[];
  readonly #reference: number;
  readonly #byCount: number[][] = [];
  readonly #isTaken: Uint8Array;
  #fewest = 0;

  constructor(near: readonly (readonly number[])[], reference: number) {
    this.#near = near;
    this.#reference = reference;
    this.#isTaken = new Uint8Array(near.length);
    for (let node = near.length - 1; node >= 0; node--) this.changed(node);
  }

  changed(node: number): void {
    if (node === this.#reference) return;
    const count = this.#near[node]!.length;
    while (this.#byCount.length <= count) this.#byCount.push([]);
    this.#byCount[count]!.push(node);
    if (count < this.#fewest) this.#fewest = count;
  }

  /** The reference where no other is left. */
  take(): number {
    for (; this.#fewest < this.#byCount.length; this.#fewest++) {
      const nodes = this.#byCount[this.#fewest]!;
      for (let node = nodes.pop(); node !== undefined; node = nodes.pop()) {
        if (this.#isTaken[node] || this.#near[node]!.length !== this.#fewest) continue;
        this.#isTaken[node] = 1;
        return node;
      }
    }
    return this.#reference;
  }
}

/** The factored network; `solve` may be called for any number of injected currents. */
export class StarMesh {
  private readonly plan: EliminationPlan;
  private readonly conductance: Float64Array;
  private readonly total: Float64Array;

  /** `conductances[i]` in siemens belongs to input edge `i` of the plan. */
  constructor(plan: EliminationPlan, conductances: ArrayLike<number>) {
    this.plan = plan;
    this.conductance = new Float64Array(plan.slotCount);
    this.total = new Float64Array(plan.nodeCount);
    const g = this.conductance;
    const { start, slots, meshSlots, edgeSlot, nodeCount } = plan;
    for (let edge = 0; edge < edgeSlot.length; edge++) {
      const slot = edgeSlot[edge]!;
      if (slot >= 0) g[slot]! += conductances[edge]!;
    }
    for (let step = 0, at = 0; step < nodeCount; step++) {
      const first = start[step]!;
      const end = start[step + 1]!;
      let total = 0;
      for (let i = first; i < end; i++) total += g[slots[i]!]!;
      this.total[step] = total;
      for (let i = first + 1; i < end; i++) {
        const share = g[slots[i]!]! / total;
        for (let j = first; j < i; j++) g[meshSlots[at++]!]! += share * g[slots[j]!]!;
      }
    }
  }

  /**
   * Node potentials in volts for currents in amperes injected into the nodes; what reaches a reference leaves there. The answer is put
   * into `potential` where that is given.
   */
  solve(injected: ArrayLike<number>, potential = new Float64Array(this.plan.nodeCount)): Float64Array {
    const { order, start, neighbours, slots, nodeCount } = this.plan;
    const g = this.conductance;
    const current = Float64Array.from(injected);
    for (let step = 0; step < nodeCount; step++) {
      const end = start[step + 1]!;
      const share = current[order[step]!]! / this.total[step]!;
      for (let i = start[step]!; i < end; i++) current[neighbours[i]!]! += g[slots[i]!]! * share;
    }
    for (let step = nodeCount - 1; step >= 0; step--) {
      const first = start[step]!;
      const end = start[step + 1]!;
      let sum = 0;
      if (end > first) {
        sum = current[order[step]!]!;
        for (let i = first; i < end; i++) sum += g[slots[i]!]! * potential[neighbours[i]!]!;
        sum /= this.total[step]!;
      }
      potential[order[step]!] = sum;
    }
    return potential;
  }
}
