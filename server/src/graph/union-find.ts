/** Disjoint sets over the ids `0 .. size-1`. */
export class UnionFind {
  private readonly parent: Int32Array;

  constructor(size: number) {
    this.parent = new Int32Array(size);
    for (let id = 0; id < size; id++) this.parent[id] = id;
  }

  find(id: number): number {
    const parent = this.parent;
    while (parent[id] !== id) {
      // Halving the path keeps later look-ups short without a second pass.
      parent[id] = parent[parent[id]!]!;
      id = parent[id]!;
    }
    return id;
  }

  /** Joins the sets of two ids; false when they were one set already. */
  union(a: number, b: number): boolean {
    const rootA = this.find(a);
    const rootB = this.find(b);
    if (rootA === rootB) return false;
    // The smaller id leads, so that results do not depend on the order of the joins.
    if (rootA < rootB) this.parent[rootB] = rootA;
    else this.parent[rootA] = rootB;
    return true;
  }

  /** The set of every id, numbered densely in order of first appearance. */
  classes(): { of: Int32Array; count: number } {
    const size = this.parent.length;
    const of = new Int32Array(size).fill(-1);
    let count = 0;
    for (let id = 0; id < size; id++) {
      const root = this.find(id);
      if (of[root] === -1) of[root] = count++;
      of[id] = of[root]!;
    }
    return { of, count };
  }
}
