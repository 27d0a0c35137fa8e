/**
 * All 2-connected blocks of an undirected multigraph and how they hang together at shared nodes. Worked out once, it tells for
 * any two nodes which edges an edge between them would lie on a cycle with, in time of the way between them alone.
 *
 * Edge `i` joins `from[i]` and `to[i]`; a self-loop belongs to no block. Depth-first search with low points.
 */
export class BlockTree {
  /** Edge indices by block. */
  readonly #edges: number[][] = [];
  /** The node of each block that lies nearest to the root of its part of the graph. */
  readonly #top: number[] = [];
  /** The block that leads from a node towards its root; -1 at a root. */
  readonly #upward: Int32Array;
  /** How many blocks lie between a node and its root. */
  readonly #depth: Int32Array;

  constructor(nodeCount: number, from: ArrayLike<number>, to: ArrayLike<number>) {
    this.#upward = new Int32Array(nodeCount).fill(-1);
    this.#depth = new Int32Array(nodeCount);
    const { start, edges } = incidence(nodeCount, from, to);
    const next = start.slice(0, nodeCount);
    const low = new Int32Array(nodeCount);
    const arrivedBy = new Int32Array(nodeCount).fill(-1);
    const order = new Int32Array(nodeCount);
    const visited: number[] = [];
    const openEdges: number[] = [];
    const path: number[] = [];
    const visit = (node: number) => {
      visited.push(node);
      order[node] = low[node] = visited.length;
      path.push(node);
    };

    for (let root = 0; root < nodeCount; root++) {
      if (order[root] === 0) visit(root);
      while (path.length > 0) {
        const node = path[path.length - 1]!;
        if (next[node]! < start[node + 1]!) {
          const edge = edges[next[node]!++]!;
          if (edge === arrivedBy[node]) continue;
          const other = from[edge] === node ? to[edge]! : from[edge]!;
          if (order[other] === 0) {
            arrivedBy[other] = edge;
            openEdges.push(edge);
            visit(other);
          } else if (order[other]! < order[node]!) {
            openEdges.push(edge);
            if (order[other]! < low[node]!) low[node] = order[other]!;
          }
          continue;
        }
        path.pop();
        const parent = path.at(-1);
        if (parent === undefined) break;
        if (low[node]! < low[parent]!) low[parent] = low[node]!;
        if (low[node]! >= order[parent]!) this.#close(parent, openEdges, arrivedBy[node]!, from, to);
      }
    }
    // A node comes after the one that its block hangs on.
    for (const node of visited) {
      const block = this.#upward[node]!;
      if (block >= 0) this.#depth[node] = this.#depth[this.#top[block]!]! + 1;
    }
  }

  /**
   * The blocks that every way between the two nodes passes, one after the other, each with the nodes where the way enters and leaves it.
   * Nothing where no way leads from one to the other.
   */
  chain(a: number, b: number): Link[] | undefined {
    const forth: Link[] = [];
    const back: Link[] = [];
    let [left, right] = [a, b];
    while (left !== right) {
      const [depthLeft, depthRight] = [this.#depth[left]!, this.#depth[right]!];
      if (depthLeft === 0 && depthRight === 0) return undefined;
      if (depthLeft >= depthRight) {
        const block = this.#upward[left]!;
        forth.push({ block, enter: left, leave: this.#top[block]! });
        left = this.#top[block]!;
      }
      if (depthRight >= depthLeft) {
        const block = this.#upward[right]!;
        back.push({ block, enter: this.#top[block]!, leave: right });
        right = this.#top[block]!;
      }
    }
    const [up, down] = [forth.at(-1), back.at(-1)];
    if (up && down && up.block === down.block) {
      forth.pop();
      back.pop();
      forth.push({ block: up.block, enter: up.enter, leave: down.leave });
    }
    return [...forth, ...back.reverse()];
  }

  /** Edges of a block, in ascending order. */
  edgesOf(block: number): readonly number[] {
    return this.#edges[block]!;
  }

  /**
   * Every edge on a simple way between the two nodes, in ascending order: with an edge between them, its block. Nothing where
   * no way leads from one to the other.
   */
  between(a: number, b: number): number[] | undefined {
    return this.chain(a, b)
      ?.flatMap(({ block }) => this.#edges[block]!)
      .sort((x, y) => x - y);
  }

  /** The edges found since the search went down along `first` are a block that hangs on `top`. */
  #close(top: number, openEdges: number[], first: number, from: ArrayLike<number>, to: ArrayLike<number>): void {
    const edges = openEdges.splice(openEdges.lastIndexOf(first)).sort((x, y) => x - y);
    for (const edge of edges) {
      for (const end of [from[edge]!, to[edge]!]) if (end !== top) this.#upward[end] = this.#edges.length;
    }
    this.#edges.push(edges);
    this.#top.push(top);
  }
}

/** One block on a way between two nodes. */
export interface Link {
  readonly block: number;
  readonly enter: number;
  readonly leave: number;
}

/** Edge indices by node, self-loops left out: those of node `n` stand at `start[n] .. start[n + 1] - 1`. */
export function incidence(nodeCount: number, from: ArrayLike<number>, to: ArrayLike<number>) {
  const start = new Int32Array(nodeCount + 1);
  for (let edge = 0; edge < from.length; edge++) {
    if (from[edge] === to[edge]) continue;
    start[from[edge]! + 1]!++;
    start[to[edge]! + 1]!++;
  }
  for (let node = 0; node < nodeCount; node++) start[node + 1]! += start[node]!;
  const fill = start.slice(0, nodeCount);
  const edges = new Int32Array(start[nodeCount]!);
  for (let edge = 0; edge < from.length; edge++) {
    if (from[edge] === to[edge]) continue;
    edges[fill[from[edge]!]!++] = edge;
    edges[fill[to[edge]!]!++] = edge;
  }
  return { start, edges };
}
