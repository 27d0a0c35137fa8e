import { describe, expect, it } from 'vitest';
import { blockOf } from '../../server/src/graph/blocks.ts';
import { UnionFind } from '../../server/src/graph/union-find.ts';
import { randomFrom } from '../support/random-network.ts';

const block = (edges: readonly (readonly [number, number])[], wanted: number) =>
  blockOf(
    1 + Math.max(...edges.flat()),
    edges.map(([a]) => a),
    edges.map(([, b]) => b),
    wanted,
  );

describe('the block of an edge', () => {
  it('is every edge on a cycle with it, not what hangs on a single node', () => {
    const twoTriangles = [
      [0, 1],
      [1, 2],
      [2, 0],
      [2, 3],
      [3, 4],
      [4, 2],
      [4, 5],
    ] as const;
    expect(block(twoTriangles, 1)).toEqual([0, 1, 2]);
    expect(block(twoTriangles, 4)).toEqual([3, 4, 5]);
    expect(block(twoTriangles, 6)).toEqual([6]);
  });

  it('holds parallel edges, and a self-loop alone', () => {
    expect(
      block(
        [
          [0, 1],
          [1, 0],
          [1, 1],
        ],
        0,
      ),
    ).toEqual([0, 1]);
    expect(
      block(
        [
          [0, 1],
          [1, 0],
          [1, 1],
        ],
        2,
      ),
    ).toEqual([2]);
  });

  it('agrees with its definition on random graphs: no single node parts two edges of a block', () => {
    const random = randomFrom(9);
    for (let round = 0; round < 200; round++) {
      const size = 2 + Math.floor(random() * 8);
      const edges = Array.from({ length: 1 + Math.floor(random() * 14) }, () => {
        const a = Math.floor(random() * size);
        return [a, (a + 1 + Math.floor(random() * (size - 1))) % size] as const;
      });
      const found = new Set(block(edges, 0));
      edges.forEach((_, other) => {
        expect(found.has(other)).toBe(other === 0 || sameBlock(edges, size, 0, other));
      });
    }
  });
});

/** Two edges share a block when, whatever one node is taken away, what is left of both stays connected. */
function sameBlock(edges: readonly (readonly [number, number])[], size: number, one: number, other: number): boolean {
  const ends = (edge: number) => edges[edge]!;
  const [a, b] = ends(one);
  const [c, d] = ends(other);
  if ((a === c && b === d) || (a === d && b === c)) return true;
  for (let removed = -1; removed < size; removed++) {
    const nodes = new UnionFind(size);
    for (const [x, y] of edges) if (x !== removed && y !== removed) nodes.union(x, y);
    const left = (edge: number) => ends(edge).find(node => node !== removed)!;
    if (nodes.find(left(one)) !== nodes.find(left(other))) return false;
  }
  // An edge that alone holds two parts together is a block of its own.
  return [one, other].every(edge => {
    const nodes = new UnionFind(size);
    edges.forEach(([x, y], at) => {
      if (at !== edge) nodes.union(x, y);
    });
    return nodes.find(ends(edge)[0]) === nodes.find(ends(edge)[1]);
  });
}

describe('disjoint sets', () => {
  it('join, say when they were one already, and are numbered in order', () => {
    const sets = new UnionFind(5);
    expect([sets.union(3, 1), sets.union(1, 4), sets.union(4, 3)]).toEqual([true, true, false]);
    const { of, count } = sets.classes();
    expect([...of]).toEqual([0, 1, 2, 1, 1]);
    expect(count).toBe(3);
  });
});
