import { describe, expect, it } from 'vitest';
import { exact, isExact, within } from '../../server/src/base/ranged.ts';
import { holdingSegments } from '../../server/src/circuit/bends/holding.ts';
import { dropOf, straighten } from '../../server/src/circuit/bends/straighten.ts';
import { diodeSegments, zenerSegments } from '../../server/src/circuit/curves/diode.ts';
import { type Bent, type Element, type Network, rangeOf } from '../../server/src/circuit/network.ts';
import { type Measurement, read } from '../../server/src/circuit/reading.ts';
import { solve } from '../../server/src/circuit/solve.ts';
import { contradictsItself, hangTogether, secondOpinion } from '../support/modified-nodal.ts';
import { randomFrom, randomNetwork } from '../support/random-network.ts';

/** Each has its own seed, so that one that fails can be looked at alone. */
const networks = 10_000;
const firstSeed = 20_261_125;
const samples = 6;
/** Up to this many uncertain values every corner is gone through. */
const mostCorners = 6;

type Random = () => number;

/** One element opened, shorted, drifted, or a bridge between two nodes. */
function withFault(network: Network, random: Random): Network {
  const { elements, nodeCount } = network;
  const at = Math.floor(random() * elements.length);
  const hit = elements[at]!;
  const changed = (element?: Element) => elements.flatMap((one, i) => (i === at ? (element ?? []) : one));
  const kind = Math.floor(random() * 4);
  if (hit.kind === 'resistance' && kind === 0) return { ...network, elements: changed() };
  if (hit.kind === 'resistance' && kind === 1)
    return { ...network, elements: changed(), joins: [...network.joins, [hit.a, hit.b]] };
  if (hit.kind === 'resistance' && kind === 2) {
    const factor = 0.2 + 3 * random();
    const { low, nominal, high } = hit.ohms;
    const ohms = { low: low * factor, nominal: nominal * factor, high: high * factor };
    return { ...network, elements: changed({ ...hit, ohms }) };
  }
  const [a, b] = [Math.floor(random() * nodeCount), Math.floor(random() * nodeCount)];
  if (a === b) return network;
  return {
    ...network,
    elements: [...elements, { kind: 'resistance', id: 'bridge', a, b, ohms: exact(0.1 + random()) }],
  };
}

const uncertainIn = ({ elements }: Network) => elements.filter(element => !isExact(rangeOf(element)));

function machine(network: Network, random: Random): Map<string, number> {
  return new Map(
    uncertainIn(network).map(element => {
      const { low, high } = rangeOf(element);
      return [element.id, low + random() * (high - low)];
    }),
  );
}

function corners(network: Network): Map<string, number>[] {
  return uncertainIn(network).reduce<Map<string, number>[]>(
    (all, element) => {
      const { low, high } = rangeOf(element);
      return all.flatMap(one => [new Map([...one, [element.id, low]]), new Map([...one, [element.id, high]])]);
    },
    [new Map()],
  );
}

/** A voltage in every network, and in turn a resistance, a current through a meter in line, and one in a clamp. */
function measurementsIn(network: Network, k: number, random: Random): Measurement[] {
  const [red, black] = [0, 1 + Math.floor(random() * (network.nodeCount - 1))];
  const volts: Measurement = { measure: 'voltage', red, black, inputOhms: 10e6 };
  const element = network.elements[Math.floor(random() * network.elements.length)]!.id;
  const others: Measurement[] = [
    { measure: 'resistance', red, black, leadsOhms: exact(0.2), overLimitOhms: Number.POSITIVE_INFINITY },
    { measure: 'current', red, black, burdenOhms: k % 2 ? 0.01 : 0 },
    { measure: 'clamp', element },
  ];
  return [volts, others[k % others.length]!];
}

interface Tally {
  numbers: number;
  machines: number;
  cornered: number;
  /** Ends that the named combinations reach. */
  ends: number;
  /** Readings that are none, and are none for the plain solver: no path, nothing that ties the leads to one another. */
  without: number;
  /** No reading since ideal sources contradict each other, or an ideal meter. */
  contradictory: number;
  worst: number;
}

describe('random networks with a random fault', { timeout: 300_000 }, () => {
  it(`read within what is reported, and reach what is said to be reached: ${networks} from seed ${firstSeed} on`, () => {
    const tallies = new Map<string, Tally>();
    const violations: string[] = [];
    let undecided = 0;
    for (let k = 0; k < networks; k++) {
      const random = randomFrom(firstSeed + k);
      const network = withFault(
        randomNetwork(random, {
          nodes: 3 + Math.floor(random() * 9),
          extra: Math.floor(random() * 6),
          voltageSources: 1 + Math.floor(random() * 2),
          currentSources: Math.floor(random() * 2),
          uncertain: 2 + Math.floor(random() * 6),
          tolerance: [0.01, 0.05, 0.2, 0.5][Math.floor(random() * 4)]!,
          decades: 4,
        }),
        random,
      );
      const isSmall = uncertainIn(network).length <= mostCorners;
      const machines = isSmall ? corners(network) : Array.from({ length: samples }, () => machine(network, random));
      for (const at of measurementsIn(network, k, random)) {
        const tally = tallies.get(at.measure) ?? emptyTally();
        tallies.set(at.measure, tally);
        const reading = read(network, at);
        if (reading.state === 'unsolvable') {
          tally.contradictory++;
          if (!contradictsItself(network, at)) violations.push(`seed ${firstSeed + k}: nothing is contradictory`);
          continue;
        }
        if (reading.state !== 'number') {
          tally.without++;
          const tied = at.measure === 'clamp' || hangTogether(network, at.red, at.black);
          if (tied) violations.push(`seed ${firstSeed + k}: ${reading.state} between leads that hang together`);
          continue;
        }
        tally.numbers++;
        if (isSmall) tally.cornered++;
        // Against values of the size that the sources make; where a reading is nothing, rounding is not.
        const size = Math.max(smallest[at.measure], Math.abs(reading.low), Math.abs(reading.high));
        for (const values of machines) {
          const shown = secondOpinion(network, at, values);
          tally.machines++;
          if (!Number.isFinite(shown)) undecided++;
          if (shown < reading.low - 1e-9 * size || shown > reading.high + 1e-9 * size)
            violations.push(`seed ${firstSeed + k}, ${at.measure}: ${shown} beyond ${reading.low} .. ${reading.high}`);
        }
        for (const [end, named] of [
          [reading.attained.low, reading.lowAt],
          [reading.attained.high, reading.highAt],
        ] as const) {
          const values = new Map(named.map(({ id, value }) => [id, value]));
          const off = Math.abs(secondOpinion(network, at, values) - end) / size;
          tally.ends++;
          if (Number.isFinite(off)) tally.worst = Math.max(tally.worst, off);
          else undecided++;
        }
      }
    }
    for (const [measure, { numbers, machines, cornered, ends, without, contradictory, worst }] of tallies) {
      console.info(
        `${measure}: ${numbers} numbers (all corners of ${cornered}, ${machines} machines, ${ends} named ends, worst relative ` +
          `difference ${worst.toExponential(1)}), ${without} without a path, ${contradictory} contradictory`,
      );
      expect(worst).toBeLessThan(1e-9);
      expect(numbers).toBeGreaterThan(networks / 6);
    }
    console.info(`${violations.length} violations, ${undecided} that the plain solver cannot look at`);
    expect(violations).toEqual([]);
    expect(undecided).toBe(0);
  });
});

/** What counts as a volt, an ohm, an ampere against which rounding is judged. */
const smallest = { voltage: 1, resistance: 1, current: 1e-3, clamp: 1e-3 };

function emptyTally(): Tally {
  return { numbers: 0, machines: 0, cornered: 0, ends: 0, without: 0, contradictory: 0, worst: 0 };
}

/** The one combination of pieces in which every piece holds, found by trying all of them. */
function bruteForce(network: Network): Float64Array | undefined {
  const { bends = [] } = network;
  const combinations = bends.reduce<Map<string, number>[]>(
    (all, bent) => all.flatMap(one => bent.segments.map((_, i) => new Map([...one, [bent.id, i]]))),
    [new Map()],
  );
  for (const holding of combinations) {
    const solved = solve(straighten(network, holding, undefined, true)).value;
    if (!solved) continue;
    const holds = bends.every(bent => {
      const segment = bent.segments[holding.get(bent.id)!]!;
      const across = solved.voltages[bent.a]! - solved.voltages[bent.b]!;
      const slack = 1e-7;
      if (segment.kind === 'open')
        return (
          across <= (segment.toV?.nominal ?? Number.POSITIVE_INFINITY) + slack &&
          across >= (segment.fromV?.nominal ?? Number.NEGATIVE_INFINITY) - slack
        );
      const drop = across - segment.volts.nominal;
      return (
        drop <= (segment.toV ?? Number.POSITIVE_INFINITY) + slack &&
        drop >= (segment.fromV ?? Number.NEGATIVE_INFINITY) - slack
      );
    });
    if (holds) return solved.voltages;
  }
  return undefined;
}

describe('random networks with diodes', { timeout: 300_000 }, () => {
  const count = networks / 10;
  it(`hold in the pieces that trying all of them finds: ${count} from seed ${firstSeed} on`, () => {
    let worst = 0;
    for (let k = 0; k < count; k++) {
      const random = randomFrom(firstSeed + k);
      const plain = randomNetwork(random, {
        nodes: 3 + Math.floor(random() * 6),
        extra: 2 + Math.floor(random() * 4),
        voltageSources: 1 + Math.floor(random() * 2),
        currentSources: 0,
        uncertain: 0,
        tolerance: 0,
        decades: 3,
      });
      const bends: Bent[] = Array.from({ length: 1 + Math.floor(random() * 5) }, (_, i) => {
        const a = Math.floor(random() * plain.nodeCount);
        const b = (a + 1 + Math.floor(random() * (plain.nodeCount - 1))) % plain.nodeCount;
        const junction = { volts: exact(0.5 + random()), ohms: exact(0.05 + random()) };
        const breakdown = { volts: exact(3 + 6 * random()), ohms: exact(1 + random()) };
        const segments = random() < 0.7 ? diodeSegments(junction) : zenerSegments(junction, breakdown);
        return { id: `D${i}`, a, b, segments };
      });
      const network = { ...plain, bends };
      const expected = bruteForce(network);
      const holding = holdingSegments(network);
      expect(holding, `seed ${firstSeed + k}`).toBeDefined();
      expect(expected, `seed ${firstSeed + k}`).toBeDefined();
      const found = solve(straighten(network, holding!, undefined, true)).value!.voltages;
      for (let node = 1; node < plain.nodeCount; node++) {
        const off = Math.abs(found[node]! - found[0]! - (expected![node]! - expected![0]!));
        worst = Math.max(worst, off / Math.max(1, Math.abs(expected![node]! - expected![0]!)));
      }
    }
    console.info(`worst relative difference with diodes ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-6);
  });

  it('name the source inside a diode', () => {
    const network: Network = {
      nodeCount: 2,
      joins: [],
      elements: [{ kind: 'voltage', id: 'V', plus: 1, minus: 0, volts: within(5, 0.1) }],
      bends: [{ id: 'D', a: 1, b: 0, segments: diodeSegments({ volts: exact(0.7), ohms: exact(1) }) }],
    };
    const holding = holdingSegments(network)!;
    expect(straighten(network, holding).elements.map(({ id }) => id)).toContain(dropOf('D'));
  });
});
