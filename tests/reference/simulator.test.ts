import { expect, it } from 'vitest';
import { exact } from '../../server/src/base/ranged.ts';
import { holdingSegments } from '../../server/src/circuit/bends/holding.ts';
import { straighten } from '../../server/src/circuit/bends/straighten.ts';
import { diodeSegments, zenerSegments } from '../../server/src/circuit/curves/diode.ts';
import { type Bent, type Element, endsOf, type Network, rangeOf } from '../../server/src/circuit/network.ts';
import { type Measurement, read } from '../../server/src/circuit/reading.ts';
import { solve } from '../../server/src/circuit/solve.ts';
import { randomFrom, randomNetwork } from '../support/random-network.ts';
import { startSimulator } from '../support/simulator.ts';

/**
 * Random networks against a general-purpose simulator (`simulator.ts`). Each network is a group of nodes of its own in one netlist, so that one run solves all of them.
 * Meters stand in the netlist as the resistances that they are.
 */
interface Case {
  network: Network;
  red: number;
  black: number;
}

const METER_OHMS = 10e6;

it('agrees with a general-purpose simulator on random networks with several sources and a meter', async () => {
  const cases = [...seriesParallel(), ...meshes()];
  const answers = await simulate(cases);
  let worst = 0;
  const compare = (ours: number, theirs: number, scale: number) => {
    worst = Math.max(worst, Math.abs(ours - theirs) / scale);
  };
  cases.forEach(({ network, red, black }, at) => {
    const prefix = `c${at}`;
    const volts = (node: number) => (node === 0 ? 0 : answers.get(`v(${prefix}n${node})`)!);
    const shown = reading(network, { measure: 'voltage', red, black, inputOhms: METER_OHMS });
    const highest = Math.max(...Array.from({ length: network.nodeCount }, (_, node) => Math.abs(volts(node))));
    compare(shown, volts(red) - volts(black), highest);

    const metered: Element = { kind: 'resistance', id: 'RM', a: red, b: black, ohms: exact(METER_OHMS) };
    const whole = solve({ ...network, elements: [...network.elements, metered] });
    for (let node = 1; node < network.nodeCount; node++) {
      compare(whole.value!.voltages[node]! - whole.value!.voltages[0]!, volts(node), highest);
    }
    const delivered = network.elements.filter(element => element.kind === 'voltage');
    const strongest = Math.max(...[...whole.value!.currents.values()].map(Math.abs));
    for (const source of delivered) {
      // The simulator counts the current of a source into its plus terminal.
      const theirs = -answers.get(`i(v${prefix}${source.id.toLowerCase()})`)!;
      compare(whole.value!.currents.get(source.id)!, theirs, strongest);
      const clamped = { ...network, elements: [...network.elements, metered] };
      compare(reading(clamped, { measure: 'clamp', element: source.id }), theirs, strongest);
    }
  });
  console.log(`simulator: ${cases.length} random networks, worst relative difference ${worst.toExponential(1)}`);
  expect(worst).toBeLessThan(1e-9);
}, 60_000);

it('agrees with it on networks with diodes, each straight piece by piece on both sides', async () => {
  const cases = withDiodes();
  const answers = await simulate(cases);
  let [worst, conducting] = [0, 0];
  cases.forEach(({ network }, at) => {
    const holding = holdingSegments(network)!;
    const whole = solve(straighten(network, holding, undefined, true)).value!;
    conducting += network.bends!.filter(bent => bent.segments[holding.get(bent.id)!]!.kind === 'line').length;
    const volts = (node: number) => (node === 0 ? 0 : answers.get(`v(c${at}n${node})`)!);
    const highest = Math.max(1, ...Array.from({ length: network.nodeCount }, (_, node) => Math.abs(volts(node))));
    for (let node = 1; node < network.nodeCount; node++) {
      worst = Math.max(worst, Math.abs(whole.voltages[node]! - whole.voltages[0]! - volts(node)) / highest);
    }
  });
  console.log(
    `simulator: ${cases.length} networks with diodes, ${conducting} conducting; worst relative difference ${worst.toExponential(1)}`,
  );
  expect(conducting).toBeGreaterThan(cases.length / 2);
  expect(worst).toBeLessThan(1e-6);
}, 60_000);

/** Networks of 4 to 12 nodes with up to five diodes and zener diodes; the meter of the netlist is one of their resistances. */
function withDiodes(): Case[] {
  const random = randomFrom(13);
  return Array.from({ length: 100 }, () => {
    const nodes = 4 + Math.floor(random() * 9);
    const plain = randomNetwork(random, {
      nodes,
      extra: 2 + Math.floor(random() * nodes),
      voltageSources: 1 + Math.floor(random() * 2),
      currentSources: 0,
      uncertain: 0,
      tolerance: 0,
      decades: 3,
    });
    const elements: Element[] = [
      ...plain.elements,
      { kind: 'resistance', id: 'RM', a: nodes - 1, b: 0, ohms: exact(METER_OHMS) },
    ];
    const bends = Array.from({ length: 1 + Math.floor(random() * 5) }, (_, i): Bent => {
      const a = Math.floor(random() * nodes);
      const b = (a + 1 + Math.floor(random() * (nodes - 1))) % nodes;
      const forward = { volts: exact(0.5 + random()), ohms: exact(0.1 + random()) };
      const breakdown = { volts: exact(3 + 6 * random()), ohms: exact(1 + random()) };
      return {
        id: `D${i}`,
        a,
        b,
        segments: random() < 0.7 ? diodeSegments(forward) : zenerSegments(forward, breakdown),
      };
    });
    return { network: { ...plain, elements, bends }, red: nodes - 1, black: 0 };
  });
}

/** The current of a bent part as an expression of the simulator. */
function currentOf({ segments }: Bent, across: string): string {
  return segments
    .flatMap(segment => {
      if (segment.kind === 'open') return [];
      const amps = `((${across}) - (${segment.volts.nominal})) / ${segment.ohms.nominal}`;
      return segment.fromV === undefined ? `min(0, ${amps})` : `max(0, ${amps})`;
    })
    .join(' + ');
}

/** 5 to 40 nodes with bridges. */
function meshes(): Case[] {
  const random = randomFrom(11);
  return Array.from({ length: 60 }, () => {
    const nodes = 5 + Math.floor(random() * 36);
    const network = randomNetwork(random, {
      nodes,
      extra: Math.floor(random() * nodes),
      voltageSources: 1 + Math.floor(random() * 3),
      currentSources: Math.floor(random() * 3),
      uncertain: 0,
      tolerance: 0,
      decades: 4,
    });
    const red = Math.floor(random() * nodes);
    return { network, red, black: (red + 1 + Math.floor(random() * (nodes - 1))) % nodes };
  });
}

/** A source that feeds resistances split again and again into two in series or two in parallel. */
function seriesParallel(): Case[] {
  const random = randomFrom(12);
  return Array.from({ length: 40 }, () => {
    const elements: Element[] = [{ kind: 'voltage', id: 'V0', plus: 1, minus: 0, volts: exact(1 + random() * 24) }];
    let nodeCount = 2;
    const grow = (a: number, b: number, depth: number): void => {
      if (depth === 0) {
        elements.push({ kind: 'resistance', id: `R${elements.length}`, a, b, ohms: exact(10 ** (4 * random())) });
      } else if (random() < 0.5) {
        const middle = nodeCount++;
        grow(a, middle, depth - 1);
        grow(middle, b, depth - 1);
      } else {
        grow(a, b, depth - 1);
        grow(a, b, depth - 1);
      }
    };
    grow(1, 0, 4);
    return { network: { nodeCount, elements, joins: [] }, red: nodeCount - 1, black: 0 };
  });
}

async function simulate(cases: readonly Case[]): Promise<ReadonlyMap<string, number>> {
  const lines: string[] = [];
  cases.forEach(({ network, red, black }, at) => {
    const node = (id: number) => (id === 0 ? '0' : `c${at}n${id}`);
    for (const element of network.elements) {
      const [a, b] = endsOf(element);
      const ends = element.kind === 'voltage' ? `${node(b)} ${node(a)}` : `${node(a)} ${node(b)}`;
      const letter = { resistance: 'r', voltage: 'v', current: 'i' }[element.kind];
      lines.push(`${letter}c${at}${element.id.toLowerCase()} ${ends} ${rangeOf(element).nominal}`);
    }
    for (const bent of network.bends ?? []) {
      const across =
        bent.a === 0 || bent.b === 0 ? `v(${node(bent.a)}) - v(${node(bent.b)})` : `v(${node(bent.a)},${node(bent.b)})`;
      lines.push(`bc${at}${bent.id.toLowerCase()} ${node(bent.a)} ${node(bent.b)} i = ${currentOf(bent, across)}`);
    }
    if (!network.bends) lines.push(`rc${at}meter ${node(red)} ${node(black)} ${METER_OHMS}`);
  });
  return (await startSimulator())(lines);
}

function reading(network: Network, measurement: Measurement): number {
  const shown = read(network, measurement);
  if (shown.state !== 'number') throw new Error(`the meter shows ${JSON.stringify(shown)}`);
  return shown.nominal;
}
