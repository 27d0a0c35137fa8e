import { describe, expect, it } from 'vitest';
import type { MeterReading } from '../../server/src/analysis/electrical.ts';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import type { Fault } from '../../server/src/analysis/faults/fault.ts';
import { wire } from '../../server/src/analysis/lower/wiring.ts';
import { type Settled, settle } from '../../server/src/analysis/settle.ts';
import type { SystemView } from '../../server/src/analysis/view.ts';
import { exact } from '../../server/src/base/ranged.ts';
import { type Element, endsOf, type Network, rangeOf, withRange } from '../../server/src/circuit/network.ts';
import { type Solution, solve } from '../../server/src/circuit/solve.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { lead, systemOf } from '../analysis/support.ts';
import { type BenchPart, systemText } from '../support/bench.ts';
import { Labels } from '../support/modified-nodal.ts';
import { randomBench } from '../support/random-bench.ts';
import { randomFrom } from '../support/random-network.ts';

/**
 * The laws of circuits on networks with diodes, lamps and tables that have one of their derived faults: in every straight network that
 * they settle in, over all tolerances. Written as system files; each has its own seed.
 */
const firstSeed = 20_261_128;
const count = 100;

interface Bench {
  readonly seed: number;
  readonly random: () => number;
  readonly nodes: number;
  readonly parts: readonly BenchPart[];
  readonly view: SystemView;
  readonly fault: Fault;
}

const benches = Array.from({ length: count }, (_, k): Bench => {
  const random = randomFrom(firstSeed + k);
  const nodes = 4 + Math.floor(random() * 4);
  const parts = randomBench(random, {
    nodes,
    supplies: 2,
    resistors: nodes + Math.floor(random() * 3),
    curves: 1 + Math.floor(random() * 3),
    lines: 2,
    uncertain: 0.4,
    percent: [2, 8, 20][k % 3]!,
  });
  const view = systemOf(systemText(parts, nodes));
  // What is named by a node or by the first supply is named otherwise when they change places.
  const named = faultsOf(view.system, 'standard').filter(
    ({ owner, kind, changes }) => changes.length > 0 && !/^(N|GND)/.test(owner) && !kind.includes('supply'),
  );
  return { seed: firstSeed + k, random, nodes, parts, view, fault: named[Math.floor(random() * named.length)]! };
});

function settledOf({ view, fault }: Bench): readonly Settled[] {
  const { rest } = view.circuit('standard');
  const settling = settle(wire(view.system, 'standard'), rest, { effect: effectOf(fault) });
  if (!('settled' in settling)) throw new Error(JSON.stringify(settling));
  return settling.settled;
}

const straight = benches.flatMap(bench => settledOf(bench).map(({ network }) => ({ seed: bench.seed, network })));

describe(`${straight.length} straight networks of ${count} bent ones with a fault, from seed ${firstSeed} on`, () => {
  it('let as much current into every node as out of it, and take up as much power as they deliver', () => {
    let [worstAmps, worstWatts] = [0, 0];
    for (const { network } of straight) {
      const point = solved(network);
      const nodes = new Labels(network.nodeCount);
      for (const [a, b] of network.joins) nodes.tie(a, b);
      const [sum, size] = [new Map<number, number>(), new Map<number, number>()];
      let [absorbed, turned] = [0, 0];
      for (const element of network.elements) {
        const amps = point.currents.get(element.id)!;
        const [a, b] = endsOf(element).map(node => nodes.of(node)) as [number, number];
        for (const [node, sign] of [
          [a, -1],
          [b, 1],
        ] as const) {
          sum.set(node, (sum.get(node) ?? 0) + sign * amps);
          size.set(node, (size.get(node) ?? 0) + Math.abs(amps));
        }
        const watts = across(element, point) * amps;
        absorbed += watts;
        turned += Math.abs(watts);
      }
      const most = Math.max(1e-3, ...size.values());
      for (const amps of sum.values()) worstAmps = Math.max(worstAmps, Math.abs(amps) / most);
      worstWatts = Math.max(worstWatts, Math.abs(absorbed) / Math.max(1e-3, turned));
      expect(point.residual).toBeLessThan(1e-9);
    }
    console.info(`worst node ${worstAmps.toExponential(1)}, worst power balance ${worstWatts.toExponential(1)}`);
    expect(worstAmps).toBeLessThan(1e-9);
    expect(worstWatts).toBeLessThan(1e-9);
  });

  it('are the sum of what each source does alone, the drops of bent parts among them', () => {
    let worst = 0;
    for (const { network } of straight) {
      const whole = solved(network);
      const sum = new Float64Array(network.nodeCount);
      for (const alone of network.elements.filter(({ kind }) => kind !== 'resistance')) {
        const elements = network.elements.map(element =>
          element.kind === 'resistance' || element === alone ? element : withRange(element, exact(0)),
        );
        const { voltages, island } = solved({ ...network, elements });
        for (let node = 0; node < sum.length; node++)
          sum[node]! += voltages[node]! - voltages[island.indexOf(island[node]!)]!;
      }
      const highest = Math.max(1, ...whole.voltages.map(Math.abs));
      whole.voltages.forEach((volts, node) => {
        const from = whole.voltages[whole.island.indexOf(whole.island[node]!)]!;
        worst = Math.max(worst, Math.abs(sum[node]! - (volts - from)) / highest);
      });
    }
    console.info(`superposition: worst ${worst.toExponential(1)}`);
    expect(worst).toBeLessThan(1e-9);
  });

  it('obey each element', () => {
    for (const { network } of straight) {
      const point = solved(network);
      for (const element of network.elements) {
        const [volts, nominal] = [across(element, point), rangeOf(element).nominal];
        if (element.kind === 'resistance') expect(volts).toBeCloseTo(nominal * point.currents.get(element.id)!, 7);
        if (element.kind === 'voltage') expect(-volts).toBeCloseTo(nominal, 9);
      }
    }
  });
});

describe('a reading of a bent network with a fault stays what it is', { timeout: 300_000 }, () => {
  it('when its nodes have other names and its parts other places', () => {
    for (const bench of benches) {
      const order = shuffled(bench.nodes - 1, bench.random).map(node => node + 1);
      const to = (node: number) => (node === 0 ? 0 : order[node - 1]!);
      const supplies = bench.parts.filter(({ kind }) => kind === 'supply');
      const others = bench.parts.filter(({ kind }) => kind !== 'supply');
      const moved = [...supplies, ...shuffled(others.length, bench.random).map(at => others[at]!)];
      const parts = moved.map(part => ({ ...part, a: to(part.a), b: to(part.b) }));
      const leads = [to(1), to(bench.nodes - 1)] as const;
      expectSame(reading(bench, systemText(parts, bench.nodes), leads), healthyAndFaulty(bench), bench);
    }
  });

  it.each(['series', 'parallel'] as const)('when a resistor is two in %s', way => {
    for (const bench of benches) {
      const { parts, nodes, fault } = bench;
      const split = parts.find(({ id, kind }) => kind === 'resistor' && !fault.id.startsWith(id))!;
      if (split.kind !== 'resistor') throw new Error('a resistor');
      const ohms = { ...split.ohms, nominal: split.ohms.nominal * (way === 'series' ? 0.5 : 2) };
      const twins: BenchPart[] =
        way === 'series'
          ? [
              { ...split, ohms, b: nodes },
              { ...split, id: 'R99', ohms, a: nodes },
            ]
          : [
              { ...split, ohms },
              { ...split, id: 'R99', ohms },
            ];
      const text = systemText(
        parts.flatMap(part => (part === split ? twins : [part])),
        nodes + 1,
      );
      expectSame(reading(bench, text, [1, nodes - 1]), healthyAndFaulty(bench), bench);
    }
  });
});

const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

/** As the bench is written, once for all that it is held against. */
function healthyAndFaulty(bench: Bench): readonly MeterReading[] {
  const known = asWritten.get(bench) ?? reading(bench, systemText(bench.parts, bench.nodes), [1, bench.nodes - 1]);
  asWritten.set(bench, known);
  return known;
}

const asWritten = new Map<Bench, readonly MeterReading[]>();

/** The voltage between two nodes, without the fault of the bench and with it. */
function reading({ fault }: Bench, text: string, leads: readonly [number, number]): readonly MeterReading[] {
  const view = systemOf(text);
  const circuit = view.circuit('standard');
  const found = faultsOf(view.system, 'standard').find(({ id }) => id === fault.id);
  if (!found) throw new Error(`there is no fault ${fault.id}`);
  const [red, black] = leads.map(node => lead(`N${node}`));
  const at = { measure: 'voltage', measurePlace: place, red, black } as const;
  return [undefined, effectOf(found)].map(effect => circuit.read(at, handheldMeter, circuit.rest, effect));
}

/** Nominal values to what rounding leaves of them; ends too, where both are reached: a tolerance may be cut in another order. */
function expectSame(ours: readonly MeterReading[], theirs: readonly MeterReading[], { seed, fault }: Bench): void {
  ours.forEach((one, i) => {
    const other = theirs[i]!;
    const where = `seed ${seed}, ${i === 0 ? 'healthy' : fault.id}`;
    expect(one.state, where).toBe(other.state);
    if (one.state !== 'number' || other.state !== 'number') return;
    const scale = Math.max(1, Math.abs(other.low), Math.abs(other.high));
    const ends = one.exact && other.exact ? (['low', 'nominal', 'high'] as const) : (['nominal'] as const);
    for (const end of ends) expect(Math.abs(one[end] - other[end]) / scale, `${where}, ${end}`).toBeLessThan(1e-7);
  });
}

function solved(network: Network): Solution {
  const { value, problems } = solve(network);
  expect(problems).toEqual([]);
  return value!;
}

function across(element: Element, { voltages }: Solution): number {
  const [a, b] = endsOf(element);
  return voltages[a]! - voltages[b]!;
}

function shuffled(size: number, random: () => number): number[] {
  const order = Array.from({ length: size }, (_, at) => at);
  for (let at = size - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1));
    [order[at], order[other]] = [order[other]!, order[at]!];
  }
  return order;
}
