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
  nodeCount: number;
  /** Nodes in the order in which they are taken out; references have no neighbours left. */
  order: Int32Array;
  /** For each position in `order`: the neighbours left, the slots of the edges to them, the slots of the mesh pairs. */
  neighbours: Int32Array[];
  slots: Int32Array[];
  meshSlots: Int32Array[];
  /** Slot in which the conductance of each input edge is collected, -1 for a self-loop. */
  edgeSlot: Int32Array;
  slotCount: number;
}

/** Plans the elimination, least neighbours first. `reference`, if given, is kept to the end of its connected part. */
export function planElimination(
  nodeCount: number,
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  reference = -1,
): EliminationPlan {
  let slotCount = 0;
  const links = Array.from({ length: nodeCount }, () => new Map<number, number>());
  const slotBetween = (a: number, b: number) => {
    let slot = links[a]!.get(b);
    if (slot === undefined) {
      slot = slotCount++;
      links[a]!.set(b, slot);
      links[b]!.set(a, slot);
    }
    return slot;
  };
  const edgeSlot = Int32Array.from(from, (a, edge) => (a === to[edge] ? -1 : slotBetween(a, to[edge]!)));

  const plan = { nodeCount, order: new Int32Array(nodeCount), edgeSlot, slotCount };
  const neighbours: Int32Array[] = [];
  const slots: Int32Array[] = [];
  const meshSlots: Int32Array[] = [];
  const left = new Set(links.keys());
  for (let step = 0; step < nodeCount; step++) {
    const node = fewestNeighbours(left, links, reference);
    left.delete(node);
    plan.order[step] = node;
    const around = [...links[node]!.keys()];
    neighbours.push(Int32Array.from(around));
    slots.push(Int32Array.from(links[node]!.values()));
    for (const neighbour of around) links[neighbour]!.delete(node);
    const mesh: number[] = [];
    for (let i = 1; i < around.length; i++) {
      for (let j = 0; j < i; j++) mesh.push(slotBetween(around[i]!, around[j]!));
    }
    meshSlots.push(Int32Array.from(mesh));
  }
  return { ...plan, neighbours, slots, meshSlots, slotCount };
}

function fewestNeighbours(left: Set<number>, links: readonly Map<number, number>[], reference: number): number {
  let best = reference;
  let fewest = Number.POSITIVE_INFINITY;
  for (const node of left) {
    const count = links[node]!.size;
    if (node !== reference && count < fewest) {
      best = node;
      fewest = count;
      if (count <= 1) break;
    }
  }
  return best;
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
    for (let edge = 0; edge < conductances.length; edge++) {
      const slot = plan.edgeSlot[edge]!;
      if (slot >= 0) g[slot]! += conductances[edge]!;
    }
    for (let step = 0; step < plan.nodeCount; step++) {
      const slots = plan.slots[step]!;
      const mesh = plan.meshSlots[step]!;
      let total = 0;
      for (let i = 0; i < slots.length; i++) total += g[slots[i]!]!;
      this.total[step] = total;
      for (let i = 1, at = 0; i < slots.length; i++) {
        const share = g[slots[i]!]! / total;
        for (let j = 0; j < i; j++) g[mesh[at++]!]! += share * g[slots[j]!]!;
      }
    }
  }

  /** Node potentials in volts for currents in amperes injected into the nodes; what reaches a reference leaves there. */
  solve(injected: ArrayLike<number>): Float64Array {
    const { order, neighbours, slots, nodeCount } = this.plan;
    const g = this.conductance;
    const current = Float64Array.from(injected);
    for (let step = 0; step < nodeCount; step++) {
      const around = neighbours[step]!;
      const edge = slots[step]!;
      const share = current[order[step]!]! / this.total[step]!;
      for (let i = 0; i < around.length; i++) current[around[i]!]! += g[edge[i]!]! * share;
    }
    const potential = new Float64Array(nodeCount);
    for (let step = nodeCount - 1; step >= 0; step--) {
      const around = neighbours[step]!;
      if (around.length === 0) continue;
      const edge = slots[step]!;
      let sum = current[order[step]!]!;
      for (let i = 0; i < around.length; i++) sum += g[edge[i]!]! * potential[around[i]!]!;
      potential[order[step]!] = sum / this.total[step]!;
    }
    return potential;
  }
}
