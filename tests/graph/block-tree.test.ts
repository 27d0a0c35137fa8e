import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BlockTree } from '../../server/src/graph/block-tree.ts';
import { blockOf } from '../../server/src/graph/blocks.ts';

const graph = fc.integer({ min: 1, max: 9 }).chain(nodeCount => {
  const node = fc.nat({ max: nodeCount - 1 });
  return fc.record({
    nodeCount: fc.constant(nodeCount),
    edges: fc.array(fc.tuple(node, node), { maxLength: 14 }),
    a: node,
    b: node,
  });
});

describe('the blocks of a graph', () => {
  it('give between two nodes what the block of an edge between them is found to be one by one', () => {
    fc.assert(
      fc.property(graph, ({ nodeCount, edges, a, b }) => {
        const from = edges.map(([start]) => start);
        const to = edges.map(([, end]) => end);
        const between = new BlockTree(nodeCount, from, to).between(a, b);
        const block = blockOf(nodeCount, [...from, a], [...to, b], edges.length);
        if (between) expect([...between, edges.length]).toEqual(block);
        else expect(block).toEqual([edges.length]);
      }),
      { numRuns: 2000 },
    );
  });

  it('tell a node from one that no way leads to', () => {
    const tree = new BlockTree(4, [0, 2], [1, 3]);
    expect(tree.between(0, 1)).toEqual([0]);
    expect(tree.between(0, 3)).toBeUndefined();
    expect(tree.between(2, 2)).toEqual([]);
  });
});
