import type { Ranged } from '../../server/src/base/ranged.ts';
import { type Element, endsOf, type Network, rangeOf } from '../../server/src/circuit/network.ts';
import { OperatingPoints } from '../../server/src/circuit/operating-points.ts';
import { type Measurement, read } from '../../server/src/circuit/reading.ts';
import { solve } from '../../server/src/circuit/solve.ts';
import { randomFrom, randomMeasurement, randomNetwork } from '../support/random-network.ts';

/** What is asked of the simulator: `eecircuit-engine`, which is ngspice as WebAssembly. */
export interface Simulator {
  setNetList: (text: string) => void;
  runSim: () => Promise<{ data: { name: string; values: number[] }[] }>;
}

export interface Comparison {
  nodes: number;
  elements: number;
  /** Operating points per second. */
  ours: number;
  /** Ours where every point is solved anew. */
  oursAnew: number;
  /** Ours where preparing counts as well, and every resistance is changed once: nothing is known of it yet. */
  oursFirst: number;
  sweep: number;
  single: number;
  /** The largest difference of a voltage, relative to the largest voltage of its operating point. */
  worst: number;
  /** Of the points that were compared, those that were not updated but solved anew. */
  anew: number;
}

const SEED = 41;
const STEPS = 2000;
const SWEPT = 3;
const OPTIONS = '.options reltol=1e-9 abstol=1e-15 vntol=1e-12 gmin=1e-18';

/**
 * One network of so many nodes; three of its resistances take 2,000 values each, one at a time. The simulator runs them the fastest
 * way that it has, as one `.dc` sweep of a resistance in one netlist, and one `.op` of a netlist for each point. Every way is run once
 * to warm up, and each gives the voltages of all nodes.
 */
export async function compared(nodes: number, simulator: Simulator): Promise<Comparison> {
  const network = someNetwork(nodes, SEED + nodes);
  const resistances = network.elements.filter(element => element.kind === 'resistance');
  const swept = Array.from({ length: SWEPT }, (_, k) => resistances[Math.floor((k * resistances.length) / SWEPT)]!);
  const valuesOf = (nominal: number) => Array.from({ length: STEPS }, (_, k) => nominal * (0.5 + (k * 2) / STEPS));

  const sweepOnce = async () => {
    const answers: Map<string, number[]>[] = [];
    for (const { id, ohms } of swept) {
      const values = valuesOf(ohms.nominal);
      const step = (2 * ohms.nominal) / STEPS;
      const last = values.at(-1)! + step / 4;
      answers.push(await run(simulator, netlist(network), `.dc r${id} ${values[0]} ${last} ${step}`));
    }
    return answers;
  };
  const points = OperatingPoints.prepare(network).value!;
  const voltages = new Float64Array(network.nodeCount);
  const updateAll = () => {
    let sum = 0;
    for (const { id, ohms } of swept) {
      for (const value of valuesOf(ohms.nominal))
        sum += points.at({ values: new Map([[id, value]]) }, voltages).value!.voltages[1]!;
    }
    return sum;
  };

  const { worst, anew } = differences(network, swept, await sweepOnce(), points, valuesOf);
  updateAll();
  const sweepMs = await timed(sweepOnce);
  const ours = await perSecond(SWEPT * STEPS, updateAll);
  const oursAnew = await perSecond(20, () => {
    for (let k = 0; k < 20; k++) solve(network, new Map([[swept[0]!.id, 10 + k]]));
  });
  const oursFirst = await perSecond(resistances.length, () => {
    const fresh = OperatingPoints.prepare(network).value!;
    for (const { id, ohms } of resistances) fresh.at({ values: new Map([[id, ohms.nominal * 1.1]]) });
  });
  const singles = 10;
  const single = async () => {
    for (let k = 0; k < singles; k++) await run(simulator, netlist(network, swept[0]!.id, 10 + k), '.op');
  };
  await single();
  return {
    nodes,
    elements: network.elements.length,
    ours,
    oursAnew,
    oursFirst,
    sweep: (1000 * SWEPT * STEPS) / sweepMs,
    single: (1000 * singles) / (await timed(single)),
    worst,
    anew,
  };
}

/** As in the network of a machine: about one and a half resistances to a node, a few sources. */
function someNetwork(nodes: number, seed: number): Network {
  return randomNetwork(randomFrom(seed), {
    nodes,
    extra: Math.floor(nodes / 2),
    voltageSources: 3,
    currentSources: 1,
    uncertain: 0,
    tolerance: 0,
    decades: 4,
  });
}

function differences(
  network: Network,
  swept: readonly { id: string; ohms: Ranged }[],
  answers: readonly Map<string, number[]>[],
  points: OperatingPoints,
  valuesOf: (nominal: number) => number[],
): { worst: number; anew: number } {
  let [worst, anew] = [0, 0];
  swept.forEach(({ id, ohms }, k) => {
    const answer = answers[k]!;
    const nodes = Array.from({ length: network.nodeCount - 1 }, (_, at) => answer.get(`v(n${at + 1})`)!);
    valuesOf(ohms.nominal).forEach((value, step) => {
      const { voltages, way } = points.at({ values: new Map([[id, value]]) }).value!;
      if (way === 'solved anew') anew++;
      let [difference, highest] = [0, 0];
      nodes.forEach((theirs, at) => {
        difference = Math.max(difference, Math.abs(voltages[at + 1]! - voltages[0]! - theirs[step]!));
        highest = Math.max(highest, Math.abs(theirs[step]!));
      });
      worst = Math.max(worst, difference / highest);
    });
  });
  return { worst, anew };
}

function netlist(network: Network, changed = '', ohms = 0): string[] {
  const node = (id: number) => (id === 0 ? '0' : `n${id}`);
  return network.elements.map((element: Element) => {
    const [a, b] = endsOf(element);
    const ends = element.kind === 'voltage' ? `${node(b)} ${node(a)}` : `${node(a)} ${node(b)}`;
    const letter = { resistance: 'r', voltage: 'v', current: 'i' }[element.kind];
    return `${letter}${element.id} ${ends} ${element.id === changed ? ohms : rangeOf(element).nominal}`;
  });
}

async function run(simulator: Simulator, elements: readonly string[], analysis: string) {
  simulator.setNetList(['operating points', ...elements, OPTIONS, analysis, '.end'].join('\n'));
  const { data } = await simulator.runSim();
  return new Map(data.map(({ name, values }) => [name.toLowerCase(), values]));
}

async function timed(work: () => unknown): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

/** Counted for a third of a second, after as long to warm up. */
async function perSecond(points: number, work: () => unknown): Promise<number> {
  let rate = 0;
  for (let round = 0; round < 2; round++) {
    const began = performance.now();
    let count = 0;
    for (; performance.now() - began < 300; count += points) work();
    rate = (1000 * count) / (performance.now() - began);
  }
  return rate;
}

export interface Gaps {
  readings: number;
  exact: number;
  /** Of the ends that are not exact: how far the enclosing ones are from the attained ones, as a part of the enclosing range. */
  median: number;
  worst: number;
}

export interface Kind {
  networks: number;
  mostNodes: number;
  /** Resistances beyond those of a tree, by node. */
  meshed: number;
  tolerance: number;
}

/** How near the ends of readings come to those that are reached, where every resistance of a random network has a tolerance. */
export function gaps({ networks, mostNodes, meshed, tolerance }: Kind): Gaps {
  const draw = randomFrom(SEED);
  const found: number[] = [];
  let readings = 0;
  for (let k = 0; k < networks; k++) {
    const nodes = 4 + Math.floor(draw() * (mostNodes - 3));
    const network = randomNetwork(draw, {
      nodes,
      extra: Math.round(meshed * nodes),
      voltageSources: 1 + Math.floor(draw() * 3),
      currentSources: Math.floor(draw() * 3),
      uncertain: Number.POSITIVE_INFINITY,
      tolerance,
      decades: 3,
    });
    const measurement: Measurement = randomMeasurement(draw, network);
    const reading = read(network, measurement);
    if (reading.state !== 'number' || reading.high === reading.low) continue;
    readings++;
    const { low, high, attained } = reading;
    if (!reading.exact) found.push(1 - (attained.high - attained.low) / (high - low));
  }
  found.sort((a, b) => a - b);
  return {
    readings,
    exact: readings - found.length,
    median: found[Math.floor(found.length / 2)] ?? 0,
    worst: found.at(-1) ?? 0,
  };
}
