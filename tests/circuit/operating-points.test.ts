import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact } from '../../server/src/base/ranged.ts';
import type { Element, Network } from '../../server/src/circuit/network.ts';
import {
  type Added,
  type Changes,
  type OperatingPoint,
  OperatingPoints,
} from '../../server/src/circuit/operating-points.ts';
import { solve } from '../../server/src/circuit/solve.ts';
import { randomFrom, randomNetwork } from '../support/random-network.ts';

const SEED = 31;

function resistor(id: string, a: number, b: number, ohms: number): Element {
  return { kind: 'resistance', id, a, b, ohms: exact(ohms) };
}

function prepared(network: Network): OperatingPoints {
  const { value, problems } = OperatingPoints.prepare(network);
  expect(problems).toEqual([]);
  return value!;
}

function pointAt(points: OperatingPoints, changes: Changes): OperatingPoint {
  const { value, problems } = points.at(changes);
  expect(problems).toEqual([]);
  return value!;
}

function random(seed: number, nodes: number): { network: Network; draw: () => number } {
  const draw = randomFrom(seed);
  const network = randomNetwork(draw, {
    nodes,
    extra: Math.floor(draw() * nodes),
    voltageSources: 1 + Math.floor(draw() * 3),
    currentSources: Math.floor(draw() * 3),
    uncertain: 0,
    tolerance: 0,
    decades: 5,
  });
  // A dead end of its own, and two nodes that are one.
  const more = [resistor('dead end', 0, nodes, 1000)];
  return {
    network: { nodeCount: nodes + 2, elements: [...network.elements, ...more], joins: [[1, nodes + 1]] },
    draw,
  };
}

/** One to four of: another value, an open element, a resistance more, a source that gives something else. */
function randomChanges(draw: () => number, network: Network): Changes {
  const pick = (count: number) => Math.floor(draw() * count);
  const values = new Map<string, number>();
  const added: Added[] = [];
  for (let k = 0, count = 1 + pick(4); k < count; k++) {
    const element = network.elements[pick(network.elements.length)]!;
    if (draw() < 0.25) {
      const a = pick(network.nodeCount);
      added.push({ id: `more ${k}`, a, b: pick(network.nodeCount), ohms: 10 ** (draw() * 8 - 1) });
    } else if (element.kind === 'resistance') {
      values.set(element.id, draw() < 0.4 ? Number.POSITIVE_INFINITY : 10 ** (draw() * 5));
    } else values.set(element.id, draw() * 20 - 10);
  }
  return { values, added };
}

/** The changed network as it would be written down. */
function changed(network: Network, { values, added = [] }: Changes): Network {
  const elements = network.elements.flatMap((element): Element[] => {
    const value = values?.get(element.id);
    if (value === undefined) return [element];
    if (value === Number.POSITIVE_INFINITY) return [];
    if (element.kind === 'resistance') return [{ ...element, ohms: exact(value) }];
    return [element.kind === 'voltage' ? { ...element, volts: exact(value) } : { ...element, amps: exact(value) }];
  });
  const more = added.filter(({ a, b }) => a !== b).map(({ id, a, b, ohms }) => resistor(id, a, b, ohms));
  return { ...network, elements: [...elements, ...more] };
}

type Voltages = Pick<OperatingPoint, 'voltages' | 'island'>;

/** The largest difference of a voltage between two nodes of one island, and the largest such voltage. */
function apart(ours: Voltages, theirs: Voltages): { worst: number; highest: number } {
  const first = new Map<number, number>();
  let [worst, highest] = [0, 0];
  expect([...ours.island]).toEqual([...theirs.island]);
  theirs.island.forEach((island, node) => {
    if (!first.has(island)) first.set(island, node);
    const volts = ({ voltages }: Voltages) => voltages[node]! - voltages[first.get(island)!]!;
    worst = Math.max(worst, Math.abs(volts(ours) - volts(theirs)));
    highest = Math.max(highest, Math.abs(volts(theirs)));
  });
  return { worst, highest };
}

/** The largest difference of a voltage and of a current from a solve of the network, relative to the largest one. */
function difference(network: Network, point: OperatingPoint): number {
  const whole = solve(network).value!;
  const { worst, highest } = apart(point, whole);
  // Where no source drives anything, what is left is rounding over the smallest resistance, which is 0.1 ohms.
  let [worstAmps, strongest] = [0, highest * 1e-5];
  for (const [id, theirs] of whole.currents) {
    worstAmps = Math.max(worstAmps, Math.abs(point.currentOf(id)! - theirs));
    strongest = Math.max(strongest, Math.abs(theirs));
  }
  return Math.max(highest && worst / highest, strongest && worstAmps / strongest);
}

describe('an operating point under changes', () => {
  it('is that of the changed network, in 4,000 random changes of 200 random networks', () => {
    let worst = 0;
    const ways = new Map<string, number>();
    for (let at = 0; at < 200; at++) {
      const { network, draw } = random(SEED + at, 3 + (at % 60));
      const points = prepared(network);
      for (let k = 0; k < 20; k++) {
        const changes = randomChanges(draw, network);
        const written = changed(network, changes);
        const { value, problems } = points.at(changes);
        expect(problems).toEqual(solve(written).problems);
        if (!value) continue;
        ways.set(value.way, (ways.get(value.way) ?? 0) + 1);
        worst = Math.max(worst, difference(written, value));
      }
    }
    console.log(
      `seeds ${SEED} to ${SEED + 199}: worst difference ${worst.toExponential(1)},`,
      Object.fromEntries(ways),
    );
    expect(worst).toBeLessThan(1e-9);
    expect(ways.get('updated')).toBeGreaterThan(2_000);
    expect(ways.get('solved anew')).toBeGreaterThan(200);
  });

  const seeds = fc.integer({ min: 0, max: 2 ** 31 });

  it('without a change is the network itself, and a change back leads back', () => {
    fc.assert(
      fc.property(seeds, seed => {
        const { network } = random(seed, 12);
        const points = prepared(network);
        expect(difference(network, pointAt(points, {}))).toBeLessThan(1e-12);
        const values = new Map(network.elements.slice(0, 5).map(element => [element.id, nominal(element)]));
        const point = pointAt(points, { values });
        expect(point.way).toBe('updated');
        expect(difference(network, point)).toBeLessThan(1e-12);
      }),
      { numRuns: 50 },
    );
  });

  it('does not depend on the order of the changes', () => {
    fc.assert(
      fc.property(seeds, seed => {
        const { network, draw } = random(seed, 15);
        const { values, added } = randomChanges(draw, network);
        const points = prepared(network);
        const [forth, back] = [
          points.at({ values: values!, added: added! }),
          points.at({ values: new Map([...values!].reverse()), added: [...added!].reverse() }),
        ];
        expect(back.problems).toEqual(forth.problems);
        if (!forth.value) return;
        const { worst, highest } = apart(back.value!, forth.value);
        expect(worst).toBeLessThanOrEqual(1e-9 * highest);
      }),
      { numRuns: 100 },
    );
  });

  it('moves in a straight line with a source, and between its ends with a resistance', () => {
    fc.assert(
      fc.property(seeds, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (seed, place) => {
        const { network } = random(seed, 10);
        const points = prepared(network);
        const source = network.elements.find(element => element.kind === 'voltage')!;
        const along = (volts: number) => pointAt(points, { values: new Map([[source.id, volts]]) }).voltages;
        const [at0, at1, between] = [along(-3), along(9), along(-3 + 12 * place)];
        between.forEach((volts, node) => {
          expect(volts).toBeCloseTo(at0[node]! + place * (at1[node]! - at0[node]!), 7);
        });
      }),
      { numRuns: 50 },
    );
  });
});

describe('how it is found', () => {
  /** 12 V over two resistances, with a third to nowhere. */
  const network: Network = {
    nodeCount: 5,
    elements: [
      { kind: 'voltage', id: 'V', plus: 1, minus: 0, volts: exact(12) },
      resistor('R1', 1, 2, 100),
      resistor('R2', 2, 0, 200),
      resistor('R3', 2, 3, 50),
      resistor('R4', 3, 4, 50),
    ],
    joins: [],
  };
  const at = (changes: Changes) => pointAt(prepared(network), changes);

  it('is by an update for values, open elements, bridges and meters that leave the nodes together', () => {
    const point = at({ values: new Map([['R2', 100]]), added: [{ id: 'meter', a: 2, b: 0, ohms: 100 }] });
    expect(point.way).toBe('updated');
    expect(point.voltages[2]! - point.voltages[0]!).toBeCloseTo(4, 12);
    expect(point.currentOf('meter')).toBeCloseTo(0.04, 12);
    expect(point.currentOf('R2')).toBeCloseTo(0.04, 12);
    expect(point.currentOf('V')).toBeCloseTo(0.08, 12);
    expect(at({ values: new Map([['R1', Number.POSITIVE_INFINITY]]) }).way).toBe('updated');
    const weaker = at({ values: new Map([['V', 6]]) });
    expect(weaker.voltages[1]! - weaker.voltages[0]!).toBeCloseTo(6, 12);
  });

  it('is by a new solve where nodes become one or an island comes off', () => {
    const shorted = at({ values: new Map([['R1', 0]]) });
    expect(shorted.way).toBe('solved anew');
    expect(shorted.voltages[2]! - shorted.voltages[0]!).toBe(12);
    const cut = at({ values: new Map([['R3', Number.POSITIVE_INFINITY]]) });
    expect(cut.way).toBe('solved anew');
    expect(cut.island[3]).not.toBe(cut.island[2]);
    expect(cut.island[3]).toBe(cut.island[4]);
    expect(at({ added: [{ id: 'join', a: 3, b: 4, ohms: 0 }] }).way).toBe('solved anew');
  });

  it('tells what keeps it from existing', () => {
    const points = prepared(network);
    const shorted = points.at({ added: [{ id: 'short', a: 0, b: 1, ohms: 0 }] });
    expect(shorted.problems).toEqual([{ kind: 'source-shorted', element: 'V' }]);
    const negative = points.at({ values: new Map([['R1', -1]]) });
    expect(negative.problems).toEqual([{ kind: 'non-positive-resistance', element: 'R1' }]);
    const loop = [...network.elements, { ...network.elements[0]!, id: 'W' }];
    expect(OperatingPoints.prepare({ ...network, elements: loop }).problems).toHaveLength(1);
  });
});

function nominal(element: Element): number {
  if (element.kind === 'resistance') return element.ohms.nominal;
  return element.kind === 'voltage' ? element.volts.nominal : element.amps.nominal;
}
