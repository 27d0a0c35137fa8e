import { incidence } from './block-tree.ts';

/**
 * The 2-connected block of an undirected multigraph that holds one given edge: the edge itself and every edge that
 * lies on a simple cycle with it, as edge indices in ascending order. A self-loop is a block of its own.
 *
 * Edge `i` joins `from[i]` and `to[i]`. Depth-first search with low points, started along the wanted edge, so that only
 * the part of the graph that can be reached from it is looked at.
 */
export function blockOf(nodeCount: number, from: ArrayLike<number>, to: ArrayLike<number>, wanted: number): number[] {
  const root = from[wanted]!;
  const first = to[wanted]!;
  if (root === first) return [wanted];

  const { start, edges } = incidence(nodeCount, from, to);
  const next = start.slice(0, nodeCount);
  const order = new Int32Array(nodeCount);
  const low = new Int32Array(nodeCount);
  const arrivedBy = new Int32Array(nodeCount).fill(-1);
  const openEdges = [wanted];
  const path = [first];
  order[root] = low[root] = 1;
  order[first] = low[first] = 2;
  arrivedBy[first] = wanted;
  let clock = 2;

  while (path.length > 0) {
    const node = path[path.length - 1]!;
    if (next[node]! < start[node + 1]!) {
      const edge = edges[next[node]!++]!;
      if (edge === arrivedBy[node]) continue;
      const other = from[edge] === node ? to[edge]! : from[edge]!;
      if (order[other] === 0) {
        order[other] = low[other] = ++clock;
        arrivedBy[other] = edge;
        openEdges.push(edge);
        path.push(other);
      } else if (order[other]! < order[node]!) {
        openEdges.push(edge);
        if (order[other]! < low[node]!) low[node] = order[other]!;
      }
    } else {
      path.pop();
      const edge = arrivedBy[node]!;
      if (edge === wanted) break;
      const parent = from[edge] === node ? to[edge]! : from[edge]!;
      if (low[node]! >= order[parent]!) {
        // A finished block that the wanted edge does not belong to.
        while (openEdges.pop() !== edge);
      } else if (low[node]! < low[parent]!) {
        low[parent] = low[node]!;
      }
    }
  }
  return openEdges.sort((a, b) => a - b);
}
