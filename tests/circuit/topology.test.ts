import { describe, expect, it } from 'vitest';
import { exact } from '../../server/src/base/ranged.ts';
import { read } from '../../server/src/circuit/reading.ts';
import { checkTopology, isLive } from '../../server/src/circuit/topology.ts';
import { netlist } from '../support/circuits.ts';

const voltmeter = { measure: 'voltage', inputOhms: 10e6 } as const;

describe('problems are named before anything is solved', () => {
  it.each([
    [
      'a sound divider',
      [
        ['V1', 'a', '0', 12],
        ['R1', 'a', 'b', 1],
        ['R2', 'b', '0', 1],
      ],
      [],
    ],
    [
      'two sources in parallel',
      [
        ['V1', 'a', '0', 12],
        ['V2', 'a', '0', 12.1],
        ['R1', 'a', '0', 1],
      ],
      [{ kind: 'source-loop', elements: ['V1', 'V2'] }],
    ],
    [
      'a ring of three sources, closed by a join',
      [
        ['V1', 'a', '0', 12],
        ['V2', 'b', 'a', 5],
        ['J', 'b', 'c'],
        ['V3', 'c', '0', 17],
      ],
      [{ kind: 'source-loop', elements: expect.arrayContaining(['V1', 'V2', 'V3']) }],
    ],
    [
      'a source shorted by a join',
      [
        ['V1', 'a', '0', 12],
        ['J', 'a', '0'],
      ],
      [{ kind: 'source-shorted', element: 'V1' }],
    ],
    [
      'a source shorted by 0 ohm',
      [
        ['V1', 'a', '0', 12],
        ['R1', 'a', '0', 0],
      ],
      [{ kind: 'source-shorted', element: 'V1' }],
    ],
    [
      'a part on one node',
      [
        ['V1', 'a', '0', 12],
        ['R1', 'a', 'a', 5],
      ],
      [{ kind: 'self-loop', element: 'R1' }],
    ],
    [
      'a part bridged by a join is no mistake',
      [
        ['V1', 'a', '0', 12],
        ['R1', 'a', 'b', 5],
        ['J', 'a', 'b'],
        ['R2', 'b', '0', 1],
      ],
      [],
    ],
    [
      'less than no resistance',
      [
        ['V1', 'a', '0', 12],
        ['R1', 'a', '0', -5],
      ],
      [{ kind: 'non-positive-resistance', element: 'R1' }],
    ],
    [
      'a value that is no number',
      [
        ['V1', 'a', '0', 12],
        ['R1', 'a', '0', Number.NaN],
      ],
      [{ kind: 'unusable-value', element: 'R1' }],
    ],
    [
      'ends out of order',
      [
        ['V1', 'a', '0', 12],
        ['R1', 'a', '0', { low: 3, nominal: 2, high: 4 }],
      ],
      [{ kind: 'unusable-value', element: 'R1' }],
    ],
    [
      'a current with no way back',
      [
        ['I1', 'a', '0', 1],
        ['R1', 'a', 'b', 5],
      ],
      [{ kind: 'current-source-open', element: 'I1' }],
    ],
  ] as const)('%s', (_, lines, problems) => {
    expect(checkTopology(netlist(lines as never).network)).toEqual(problems);
  });
});

describe('a mistake in one place', () => {
  const { network, node } = netlist([
    ['V1', 'a', '0', 12],
    ['R1', 'a', 'b', 1000],
    ['R2', 'b', '0', 1000],
    // An island with two sources in parallel, and on the same ground one that is shorted.
    ['V2', 'x', 'y', 5],
    ['V3', 'x', 'y', 6],
    ['R3', 'x', 'y', 10],
    ['V4', 'p', '0', 24],
    ['R4', 'p', 'q', 0],
    ['J', 'q', '0'],
  ]);

  it('does not keep another place from being read', () => {
    const reading = read(network, {
      measure: 'voltage',
      red: node('b'),
      black: node('0'),
      inputOhms: Number.POSITIVE_INFINITY,
    });
    expect(reading).toMatchObject({ state: 'number', nominal: 6, exact: true });
  });

  it('is named where it is read', () => {
    expect(read(network, { ...voltmeter, red: node('x'), black: node('y') })).toEqual({
      state: 'unsolvable',
      problems: [{ kind: 'source-loop', elements: ['V2', 'V3'] }],
    });
    expect(read(network, { measure: 'clamp', element: 'V4' })).toEqual({
      state: 'unsolvable',
      problems: [{ kind: 'source-shorted', element: 'V4' }],
    });
    expect(read(network, { measure: 'clamp', element: 'K9' })).toEqual({
      state: 'unsolvable',
      problems: [{ kind: 'unknown-element', element: 'K9' }],
    });
  });
});

describe('an ohmmeter on a live circuit', () => {
  const { network, node } = netlist([
    ['V1', 'battery', 'ground', 12.6],
    ['R1', 'battery', 'fused', 0.01],
    ['J', 'fused', 'feed'],
    ['R2', 'feed', 'lamp', 2],
    ['R3', 'lamp', 'ground', 0.02],
    // Beyond an open switch: tied to ground at one end alone.
    ['R4', 'switched', 'coil', 0.05],
    ['R5', 'coil', 'ground', 80],
    ['V2', 'dead', 'ground', 0],
    ['R6', 'dead', 'ground', 7],
  ]);
  const live = (red: string, black: string) => isLive(network, node(red), node(black));

  it('is found along the driven path, across a closed contact too', () => {
    expect(live('lamp', 'ground')).toBe(true);
    expect(live('battery', 'feed')).toBe(true);
    expect(live('fused', 'feed')).toBe(true);
  });

  it('is not found where no supply drives anything', () => {
    expect(live('switched', 'ground')).toBe(false);
    expect(live('coil', 'switched')).toBe(false);
    expect(live('dead', 'ground')).toBe(false);
    expect(live('lamp', 'lamp')).toBe(false);
  });

  it('is found between the live side and the dead one', () => {
    expect(live('lamp', 'switched')).toBe(true);
  });
});

it('a voltage source holds its volts however little resistance it has to feed', () => {
  const { network, node } = netlist([
    ['V1', 'a', '0', 12],
    ['R1', 'a', '0', exact(0.001)],
  ]);
  expect(read(network, { ...voltmeter, red: node('a'), black: node('0') })).toMatchObject({ nominal: 12, exact: true });
});
