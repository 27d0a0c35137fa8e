import { describe, expect, it } from 'vitest';
import { isExact, within } from '../../server/src/base/ranged.ts';
import { type Network, rangeOf } from '../../server/src/circuit/network.ts';
import { type NumberReading, read } from '../../server/src/circuit/reading.ts';
import { netlist } from '../support/circuits.ts';
import { secondOpinion } from '../support/modified-nodal.ts';
import { randomFrom, randomMeasurement, randomNetwork } from '../support/random-network.ts';

const ideal = { inputOhms: Number.POSITIVE_INFINITY };

describe('the bridge whose direction turns over the tolerances', () => {
  // Bridge of Kuphaldt, Lessons In Electric Circuits, Vol. I, ch. 10 (liec-10-bridge-24), with R3 and R4 of our own.
  const bridge = (r3: number, r4: number, tolerance: number) =>
    netlist([
      ['V1', '1', '0', 24],
      ['R1', '1', '2', 150],
      ['R2', '1', '3', 50],
      ['R3', '2', '3', within(r3, tolerance)],
      ['R4', '2', '0', { low: 300, nominal: r4, high: 900 }],
      ['R5', '3', '0', 250],
    ]);

  it('goes down with R3 at one end of R4 and up at the other, and both ends are still found', () => {
    const { network, node } = bridge(100, 300, 0.1);
    const at = (r3: number, r4: number) =>
      secondOpinion(
        network,
        { measure: 'voltage', red: node('2'), black: node('0'), ...ideal },
        new Map([
          ['R3', r3],
          ['R4', r4],
        ]),
      );
    expect(at(90, 300)).toBeCloseTo(17.726618705, 8);
    expect(at(110, 300)).toBeCloseTo(17.5894039735, 8);
    expect(at(90, 900)).toBeCloseTo(20.2891125343, 8);
    expect(at(110, 900)).toBeCloseTo(20.3092608326, 8);

    const reading = number(read(network, { measure: 'voltage', red: node('2'), black: node('0'), ...ideal }));
    expect(reading).toMatchObject({ exact: true });
    expect(reading.low).toBeCloseTo(at(110, 300), 10);
    expect(reading.high).toBeCloseTo(at(110, 900), 10);
    expect(reading.lowAt).toEqual([
      { id: 'R4', kind: 'resistance', value: 300, end: 'low' },
      { id: 'R3', kind: 'resistance', value: 110, end: 'high' },
    ]);
    expect(reading.highAt.map(({ id, end }) => [id, end])).toEqual([
      ['R4', 'high'],
      ['R3', 'high'],
    ]);
  });
});

describe('every combination of ends, gone through one by one', () => {
  const seeds = Array.from({ length: 400 }, (_, seed) => seed);

  it('gives the range that is reported as exact, for any kind of measurement', () => {
    const random = randomFrom(1);
    let compared = 0;
    let worst = 0;
    for (const _ of seeds) {
      const network = randomNetwork(random, {
        nodes: 3 + Math.floor(random() * 5),
        extra: 1 + Math.floor(random() * 5),
        voltageSources: 1 + Math.floor(random() * 2),
        currentSources: Math.floor(random() * 2),
        uncertain: Math.floor(random() * 8),
        tolerance: random() < 0.5 ? 0.1 : 0.9,
        decades: 3,
      });
      const measurement = randomMeasurement(random, network);
      const reading = read(network, measurement);
      if (reading.state !== 'number') continue;
      compared++;
      expect(reading.exact).toBe(true);
      const all = corners(network).map(at => secondOpinion(network, measurement, at));
      const [low, high] = [Math.min(...all), Math.max(...all)];
      const scale = Math.max(...all.map(Math.abs), 1e-3);
      worst = Math.max(worst, Math.abs(reading.low - low) / scale, Math.abs(reading.high - high) / scale);
      expect(reading.nominal / scale).toBeCloseTo(secondOpinion(network, measurement, new Map()) / scale, 9);
      expect(secondOpinion(network, measurement, combination(reading.lowAt)) / scale).toBeCloseTo(low / scale, 7);
      expect(secondOpinion(network, measurement, combination(reading.highAt)) / scale).toBeCloseTo(high / scale, 7);
    }
    console.log(
      `corners: ${compared} readings against all combinations, worst relative difference ${worst.toExponential(1)}`,
    );
    expect(compared).toBeGreaterThan(300);
    expect(worst).toBeLessThan(1e-9);
  });
});

describe('a budget too small to finish', () => {
  it.each([0.9, 0.99, 1 - 1e-12])(
    'still encloses every combination, and names what it reached, tolerance ±%f',
    tolerance => {
      const random = randomFrom(4);
      let unfinished = 0;
      for (let round = 0; round < 60; round++) {
        const network = randomNetwork(random, {
          nodes: 6,
          extra: 6,
          voltageSources: 2,
          currentSources: 1,
          uncertain: 9,
          tolerance,
          decades: 2,
        });
        const measurement = randomMeasurement(random, network);
        const reading = read(network, measurement, { cornerBudget: 1 });
        if (reading.state !== 'number') continue;
        if (!reading.exact) unfinished++;
        const all = corners(network).map(at => secondOpinion(network, measurement, at));
        const [low, high] = [Math.min(...all), Math.max(...all)];
        const slack = 1e-8 * Math.max(Math.abs(low), Math.abs(high));
        expect(reading.low).toBeLessThanOrEqual(low + slack);
        expect(reading.high).toBeGreaterThanOrEqual(high - slack);
        expect(reading.attained.low).toBeGreaterThanOrEqual(low - slack);
        expect(reading.attained.high).toBeLessThanOrEqual(high + slack);
        if (reading.exact) {
          expect(Math.abs(reading.low - low)).toBeLessThanOrEqual(slack);
          expect(Math.abs(reading.high - high)).toBeLessThanOrEqual(slack);
        }
      }
      expect(unfinished).toBeGreaterThan(0);
    },
  );

  it('is what a cancelled reading has', () => {
    const random = randomFrom(6);
    const network = randomNetwork(random, {
      nodes: 12,
      extra: 14,
      voltageSources: 1,
      currentSources: 0,
      uncertain: 30,
      tolerance: 0.9,
      decades: 2,
    });
    const measurement = { measure: 'voltage', red: 3, black: 8, inputOhms: 10e6 } as const;
    const cut = number(read(network, measurement, { cancelled: () => true }));
    const full = number(read(network, measurement));
    expect(cut.exact).toBe(false);
    expect(cut.high).toBeGreaterThanOrEqual(full.attained.high);
    expect(cut.low).toBeLessThanOrEqual(full.attained.low);
  });
});

describe('larger networks, with every resistance uncertain', () => {
  it.each([0.05, 0.2, 0.9])('keep every sampled combination inside, tolerance up to ±%f', tolerance => {
    const random = randomFrom(7);
    let exactOnes = 0;
    let readings = 0;
    for (let round = 0; round < 40; round++) {
      const nodes = 6 + Math.floor(random() * 10);
      const network = randomNetwork(random, {
        nodes,
        extra: nodes,
        voltageSources: 2,
        currentSources: 1,
        uncertain: 100,
        tolerance,
        decades: 3,
      });
      const measurement = randomMeasurement(random, network);
      const reading = read(network, measurement, { cornerBudget: 60 });
      if (reading.state !== 'number') continue;
      readings++;
      if (reading.exact) exactOnes++;
      const slack = 1e-9 * Math.max(Math.abs(reading.low), Math.abs(reading.high));
      expect(reading.low).toBeLessThanOrEqual(reading.attained.low);
      expect(reading.high).toBeGreaterThanOrEqual(reading.attained.high);
      for (let sample = 0; sample < 60; sample++) {
        const shown = secondOpinion(network, measurement, sampled(network, random));
        expect(shown).toBeGreaterThanOrEqual(reading.low - slack);
        expect(shown).toBeLessThanOrEqual(reading.high + slack);
      }
      const reached = secondOpinion(network, measurement, combination(reading.highAt));
      expect(Math.abs(reached - reading.attained.high)).toBeLessThanOrEqual(
        1e-6 * Math.abs(reading.attained.high) + slack,
      );
    }
    console.log(`larger networks, ±${tolerance * 100} %: ${exactOnes} of ${readings} ranges exact within 60 boxes`);
    expect(readings).toBeGreaterThan(20);
  });
});

function number(reading: ReturnType<typeof read>): NumberReading {
  if (reading.state !== 'number') throw new Error(`no number but ${JSON.stringify(reading)}`);
  return reading;
}

function combination(values: readonly { id: string; value: number }[]): Map<string, number> {
  return new Map(values.map(({ id, value }) => [id, value]));
}

function corners(network: Network): Map<string, number>[] {
  const open = network.elements.filter(element => !isExact(rangeOf(element)));
  return Array.from({ length: 2 ** open.length }, (_, bits) => {
    const ends = open.map((element, at) => [element.id, rangeOf(element)[(bits >> at) & 1 ? 'high' : 'low']] as const);
    return new Map(ends);
  });
}

/** Half of the values at an end, half in between. */
function sampled(network: Network, random: () => number): Map<string, number> {
  return new Map(
    network.elements.map(element => {
      const { low, high } = rangeOf(element);
      const share = random() < 0.5 ? Math.round(random()) : random();
      return [element.id, low + share * (high - low)];
    }),
  );
}
