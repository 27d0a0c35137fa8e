import { describe, expect, it } from 'vitest';
import { exact, type Ranged, within } from '../../server/src/base/ranged.ts';
import { holdingSegments } from '../../server/src/circuit/bends/holding.ts';
import { readOhms } from '../../server/src/circuit/bends/ohms.ts';
import { straighten } from '../../server/src/circuit/bends/straighten.ts';
import type { Bent, Element, Network } from '../../server/src/circuit/network.ts';
import { solve } from '../../server/src/circuit/solve.ts';

const diode = (id: string, a: number, b: number, volts: Ranged = exact(0.7), ohms = 0.1): Bent => ({
  id,
  a,
  b,
  segments: [
    { kind: 'open', toV: volts },
    { kind: 'line', volts, ohms: exact(ohms), fromV: 0 },
  ],
});
const source = (id: string, plus: number, minus: number, volts: number): Element => ({
  kind: 'voltage',
  id,
  plus,
  minus,
  volts: exact(volts),
});
const resistor = (id: string, a: number, b: number, ohms: Ranged): Element => ({ kind: 'resistance', id, a, b, ohms });
const solved = (network: Network) => {
  const holding = holdingSegments(network);
  if (!holding) throw new Error('no pieces hold');
  return { holding, ...solve(straighten(network, holding, undefined, true)).value! };
};

describe('a network with diodes', () => {
  it('conducts forward with its own drop, and blocks backwards', () => {
    // Series law: i = (V - Vf) / (R + r).
    const forward: Network = {
      nodeCount: 3,
      joins: [],
      elements: [source('V', 1, 0, 12), resistor('R', 1, 2, exact(999.9))],
      bends: [diode('D', 2, 0)],
    };
    expect(solved(forward).currents.get('R')).toBeCloseTo(11.3e-3, 9);
    const backward = { ...forward, bends: [diode('D', 0, 2)] };
    expect(solved(backward).holding.get('D')).toBe(0);
  });

  it('lets the higher of two supplies feed the load', () => {
    const network: Network = {
      nodeCount: 4,
      joins: [],
      elements: [source('A', 1, 0, 12), source('B', 2, 0, 13), resistor('R', 3, 0, exact(99.9))],
      bends: [diode('DA', 1, 3), diode('DB', 2, 3)],
    };
    const { holding, currents } = solved(network);
    expect([holding.get('DA'), holding.get('DB')]).toEqual([0, 1]);
    expect(currents.get('R')).toBeCloseTo(12.3 / 100, 9);
  });

  it('rectifies both ways round with a bridge of four', () => {
    for (const volts of [10, -10]) {
      const network: Network = {
        nodeCount: 4,
        joins: [],
        elements: [source('V', 1, 0, volts), resistor('R', 2, 3, exact(8.6 - 0.2))],
        bends: [diode('D1', 1, 2), diode('D2', 3, 1), diode('D3', 0, 2), diode('D4', 3, 0)],
      };
      expect(solved(network).currents.get('R')).toBeCloseTo(1, 6);
    }
  });

  it('finds both of two in series on', () => {
    const network: Network = {
      nodeCount: 4,
      joins: [],
      elements: [source('V', 1, 0, 5), resistor('R', 1, 2, exact(359.8))],
      bends: [diode('D1', 2, 3), diode('D2', 3, 0)],
    };
    expect(solved(network).currents.get('R')).toBeCloseTo(3.6 / 360, 8);
  });
});

describe('an ohmmeter over a diode', () => {
  const at = (red: number, black: number) =>
    ({ measure: 'resistance', red, black, leadsOhms: exact(0), overLimitOhms: 40e6 }) as const;
  const tests = [{ openV: 1.5, shortA: 1e-3, upToOhms: Number.POSITIVE_INFINITY }];
  const alone: Network = { nodeCount: 2, joins: [], elements: [], bends: [diode('D', 1, 0)] };

  it('reads OL one way and the drop at its own test current the other way', () => {
    expect(readOhms(alone, at(0, 1), tests)).toMatchObject({ state: 'over-limit' });
    // 1.5 V behind 1.5 kΩ over a drop of 0.7 V: R = 1500 * V / (1.5 - V).
    const volts = 0.7 + (0.1 * 0.8) / 1500.1;
    expect(readOhms(alone, at(1, 0), tests)).toMatchObject({ state: 'number', exact: true });
    const reading = readOhms(alone, at(1, 0), tests);
    expect(reading.state === 'number' && reading.nominal).toBeCloseTo((1500 * volts) / (1.5 - volts), 6);
  });

  it('reads a resistor past the diode as if it were not there', () => {
    const network = { ...alone, elements: [resistor('R', 1, 0, within(100, 0.01))] };
    expect(readOhms(network, at(0, 1), tests)).toMatchObject({
      state: 'number',
      nominal: 100,
      low: expect.closeTo(99, 9),
      high: expect.closeTo(101, 9),
      exact: true,
    });
  });
});
