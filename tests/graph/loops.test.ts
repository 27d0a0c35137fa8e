import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loops } from '../../server/src/graph/loops.ts';
import { reachable, reversed } from '../../server/src/graph/reach.ts';

type Arrows = Record<string, string[]>;
const along = (arrows: Arrows) => (node: string) => arrows[node] ?? [];

describe('reachability', () => {
  it('includes the starts and follows every arrow', () => {
    const arrows = { a: ['b', 'c'], b: ['d'], e: ['a'] };
    expect([...reachable(['a'], along(arrows))]).toEqual(['a', 'b', 'c', 'd']);
  });

  it('turned round, finds where something comes from', () => {
    const arrows = { a: ['b'], b: ['c'], d: ['c'] };
    expect([...reachable(['c'], reversed(Object.keys(arrows), along(arrows)))]).toEqual(['c', 'b', 'd', 'a']);
  });
});

describe('loops', () => {
  it('finds a loop of several and one of a single node, and no straight line', () => {
    const arrows = { a: ['b'], b: ['c'], c: ['b', 'd'], d: ['d'], e: [] };
    expect(loops(Object.keys(arrows), along(arrows))).toEqual([['b', 'c'], ['d']]);
  });

  it('leaves out arrows to nodes that are not asked about', () => {
    expect(loops(['a'], along({ a: ['b'], b: ['a'] }))).toEqual([]);
  });

  it('follows a row of 100,000 without running out of stack', () => {
    const size = 100_000;
    const row = Array.from({ length: size }, (_, i) => i);
    expect(loops(row, i => [(i + 1) % size])).toHaveLength(1);
  });

  it('agrees with the definition on random graphs: two nodes share a loop when each reaches the other', () => {
    const graph = fc
      .integer({ min: 1, max: 8 })
      .chain(size =>
        fc.tuple(fc.constant(size), fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 16 })),
      );
    fc.assert(
      fc.property(graph, ([size, arrows]) => {
        const nodes = Array.from({ length: size }, (_, i) => i);
        const next = (node: number) => arrows.filter(([from]) => from === node).map(([, to]) => to);
        const after = nodes.map(node => reachable(next(node), next));
        const byDefinition = nodes
          .map(a => nodes.filter(b => after[a]!.has(b) && after[b]!.has(a)))
          .filter((loop, a) => loop[0] === a && loop.length > 0);
        expect(loops(nodes, next)).toEqual(byDefinition);
      }),
    );
  });
});
