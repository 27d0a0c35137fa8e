import { describe, expect, it } from 'vitest';
import { graphOf, graphWithout } from '../../server/src/circuit/graph.ts';
import type { Element, Network } from '../../server/src/circuit/network.ts';

const ohms = (low: number, nominal: number, high: number) => ({ low, nominal, high });

function bridge(change: Partial<Network> = {}, last: Partial<Element> = {}): Network {
  const elements: Element[] = [
    { kind: 'voltage', id: 'G1', plus: 1, minus: 0, volts: ohms(12, 12.6, 13) },
    { kind: 'resistance', id: 'R1', a: 1, b: 2, ohms: ohms(90, 100, 110) },
    { kind: 'resistance', id: 'R2', a: 2, b: 0, ohms: ohms(45, 50, 55) },
    { kind: 'resistance', id: 'R3', a: 2, b: 3, ohms: ohms(1, 2, 3), ...last } as Element,
  ];
  return { nodeCount: 5, elements, joins: [[3, 4]], ...change };
}

describe('the graph of a network', () => {
  it('is shared with every network that differs in values and names alone', () => {
    const graph = graphOf(bridge());
    expect(graphOf(bridge({}, { ohms: ohms(7, 8, 9) }))).toBe(graph);
    expect(graphOf(bridge({}, { id: 'R4' }))).toBe(graph);
  });

  it.each([
    ['an end lies elsewhere', bridge({}, { b: 1 })],
    ['an element is a connection', bridge({}, { ohms: ohms(0, 0, 0) })],
    ['other nodes are joined', bridge({ joins: [[2, 4]] })],
    ['there are more nodes', bridge({ nodeCount: 6 })],
    ['an element is missing', bridge({ elements: bridge().elements.slice(0, 3) })],
    [
      'an element is of another kind',
      bridge({}, { kind: 'current', id: 'I1', from: 2, to: 3, amps: ohms(1, 1, 1) } as Partial<Element>),
    ],
  ])('is another one where %s', (_, other) => {
    expect(graphOf(other)).not.toBe(graphOf(bridge()));
  });

  it('has its nodes merged, and its blocks and equations by the places of the elements', () => {
    const network = bridge({}, { b: 0 });
    const { nodeOf, count, from, to, blocks } = graphOf(network);
    expect([count, nodeOf[3]]).toEqual([4, nodeOf[4]]);
    expect([from[0], to[0]]).toEqual([nodeOf[0], nodeOf[1]]);
    expect(blocks.between(nodeOf[0]!, nodeOf[1]!)).toEqual([0, 1, 2, 3]);
    const { isSound, resistances, sources, groupA, groupB } = graphOf(network).frame(network.elements);
    expect(isSound).toBe(true);
    expect([[...resistances], [...sources]]).toEqual([[1, 2, 3], [0]]);
    // The supply ties its two nodes together.
    expect(groupA[0]).toBe(groupB[1]);
  });

  it.each([
    ['a shorted supply', bridge({ joins: [[0, 1]] })],
    [
      'two supplies in a ring',
      bridge({
        elements: [...bridge().elements, { kind: 'voltage', id: 'G2', plus: 1, minus: 0, volts: ohms(12, 12, 12) }],
      }),
    ],
    [
      'a current without a way back',
      bridge({
        elements: [...bridge().elements, { kind: 'current', id: 'I1', from: 0, to: 5, amps: ohms(1, 1, 1) }],
        nodeCount: 6,
      }),
    ],
  ])('is not sound with %s', (_, network) => {
    expect(graphOf(network).frame(network.elements).isSound).toBe(false);
  });

  it('takes for a connection what is told to be one', () => {
    const network = bridge({}, { ohms: ohms(0, 0, 3) });
    const isNothing = (element: Element) => element.kind === 'resistance' && element.ohms.nominal === 0;
    expect(graphOf(network).count).toBe(4);
    expect(graphWithout(network, isNothing).count).toBe(3);
    expect(graphWithout(bridge(), isNothing)).toBe(graphOf(bridge()));
  });
});
