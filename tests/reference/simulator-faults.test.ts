import { describe, expect, it } from 'vitest';
import type { Circuit } from '../../server/src/analysis/electrical.ts';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import type { Fault } from '../../server/src/analysis/faults/fault.ts';
import { situation } from '../../server/src/analysis/situation.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeterPlace } from '../../server/src/model/step.ts';
import { lead, systemOf } from '../analysis/support.ts';
import { type BenchPart, type Flat, machineOf, systemText } from '../support/bench.ts';
import { withFault } from '../support/bench-faults.ts';
import { holdingPieces, pointIn } from '../support/plain-bends.ts';
import { type BenchOptions, randomBench } from '../support/random-bench.ts';
import { randomFrom } from '../support/random-network.ts';
import { currentName, netlistOf, startSimulator, voltageAt } from '../support/simulator.ts';

/**
 * Random networks written as system files, each healthy and with one of its derived faults, against ngspice 45: the product puts the
 * fault into its circuit by the effect that it derived, the netlist has it by hand (`bench-faults.ts`). Every node, every clamp around
 * what the fault leaves alone, and a resistance with the supplies apart. Each network has its own seed.
 */
const firstSeed = 20_261_127;
const networksEach = 100;
/** So many at once: what the simulator takes grows faster than the netlist. */
const atOnce = 20;

interface Case {
  readonly seed: number;
  readonly parts: readonly BenchPart[];
  readonly nodes: number;
  readonly circuit: Circuit;
  readonly fault: Fault;
  /** Healthy, then faulty. */
  readonly flats: readonly [Flat, Flat];
  readonly leads: readonly [red: number, black: number];
}

describe.each([
  { networks: 'linear', curves: 0, limit: 1e-9 },
  { networks: 'piecewise-linear', curves: 3, limit: 1e-6 },
])('$networks networks, healthy and with a fault', ({ curves, limit }) => {
  it('read as a general-purpose simulator has them', { timeout: 300_000 }, async () => {
    const cases = Array.from({ length: networksEach }, (_, k) => caseOf(firstSeed + k, curves));
    const worst = new Map<string, number>();
    const kinds = new Map<string, number>();
    let [compared, floating, open] = [0, 0, 0];
    const note = (what: string, seed: number, ours: number, theirs: number, scale: number) => {
      compared++;
      const off = Math.abs(ours - theirs) / scale;
      worst.set(what, Math.max(worst.get(what) ?? 0, off));
      expect(off, `seed ${seed}, ${what}: ${ours} and not ${theirs}`).toBeLessThan(limit);
    };
    const answers = await simulated(cases);
    cases.forEach(({ seed, parts, nodes, circuit, fault, flats, leads }, k) => {
      kinds.set(fault.kind, (kinds.get(fault.kind) ?? 0) + 1);
      flats.forEach((flat, i) => {
        const state = i === 0 ? 'healthy' : 'faulty';
        const where = `${fault.id}, ${state}`;
        const effect = i === 0 ? undefined : effectOf(fault);
        const read = (at: MeterPlace, apart: readonly string[] = []) =>
          circuit.read(at, ideal, situation(circuit.rest.states, new Set(apart)), effect);
        const volts = (node: number) => voltageAt(answers, `k${k}f${i}x`, node);
        const holding = holdingPieces(flat)!;

        const others = Array.from({ length: nodes - 1 }, (_, node) => node + 1);
        const isTied = (node: number) => !Number.isNaN(pointIn(flat, holding, 0).volts(node, 0));
        const highest = Math.max(1, ...others.filter(isTied).map(node => Math.abs(volts(node))));
        for (const node of others) {
          const reading = read(between('voltage', node, 0));
          expect(reading.state, `seed ${seed}, ${where}, node ${node}`).toBe(isTied(node) ? 'number' : 'floating');
          if (reading.state !== 'number') floating++;
          else note(`voltage, ${state}`, seed, reading.nominal, volts(node), highest);
        }

        const amps = flat.straight.map((_, at) => answers.get(currentName(`k${k}f${i}x`, at))!);
        const strongest = Math.max(1e-3, ...amps.map(Math.abs));
        flat.straight.forEach(({ id }, at) => {
          const part = parts.find(one => one.id === id);
          if (!part || id === fault.owner) return;
          const reading = read(around(id));
          if (reading.state !== 'number') throw new Error(`seed ${seed}, ${where}, ${id}: ${JSON.stringify(reading)}`);
          // A supply is told by what it delivers.
          note(`current, ${state}`, seed, reading.nominal, part.kind === 'supply' ? -amps[at]! : amps[at]!, strongest);
        });

        const supplies = parts.filter(({ kind }) => kind === 'supply').map(({ id }) => id);
        const reading = read(between('resistance', ...leads), supplies);
        const [red, black] = leads.map(node => voltageAt(answers, `k${k}f${i}o`, node));
        const ohms = ohmsOf(red! - black!);
        if (reading.state !== 'number') {
          open++;
          expect(ohms, `seed ${seed}, ${where}: ${reading.state}`).toBeGreaterThan(1e7);
        } else note(`resistance, ${state}`, seed, reading.nominal, ohms, ohms);
      });
    });
    console.info(
      `${cases.length} networks from seed ${firstSeed} on, ${compared} values, ${floating} floating, ${open} open; worst relative ` +
        `differences: ${[...worst].map(([what, off]) => `${what} ${off.toExponential(1)}`).join('; ')}; ` +
        `faults: ${[...kinds].map(([kind, count]) => `${count} ${kind}`).join(', ')}`,
    );
    expect(kinds.size).toBeGreaterThan(8);
  });
});

async function simulated(cases: readonly Case[]): Promise<ReadonlyMap<string, number>> {
  const simulate = await startSimulator();
  const answers = new Map<string, number>();
  const lines = cases.map(({ flats, leads }, k) =>
    flats.flatMap((flat, i) => [
      ...netlistOf(flat, `k${k}f${i}x`),
      ...netlistOf(underTest(flat, leads), `k${k}f${i}o`),
    ]),
  );
  for (let at = 0; at < lines.length; at += atOnce) {
    for (const [name, value] of await simulate(lines.slice(at, at + atOnce).flat())) answers.set(name, value);
  }
  return answers;
}

const ideal = { ...handheldMeter, inputOhms: Number.POSITIVE_INFINITY };

function caseOf(seed: number, curves: number): Case {
  const random = randomFrom(seed);
  const nodes = 4 + Math.floor(random() * 5);
  const options: BenchOptions = {
    nodes,
    supplies: 1 + Math.floor(random() * 2),
    // One less than a tree has leaves some nodes alone; behind a diode that blocks, the simulator would have no answer for them.
    resistors: nodes - (curves === 0 ? 2 : 1) + Math.floor(random() * 4),
    curves: curves === 0 ? 0 : 1 + Math.floor(random() * curves),
    lines: 1 + Math.floor(random() * 3),
    uncertain: 0,
    percent: 0,
  };
  const parts = randomBench(random, options);
  const view = systemOf(systemText(parts, nodes));
  const electrical = faultsOf(view.system, 'standard').filter(({ changes }) => changes.length > 0);
  // One kind is as likely as another, however many parts may have it.
  const kinds = [...new Set(electrical.map(({ kind }) => kind.replace(/ at .*/, '')))];
  const kind = kinds[Math.floor(random() * kinds.length)]!;
  const among = electrical.filter(fault => fault.kind.replace(/ at .*/, '') === kind);
  const fault = among[Math.floor(random() * among.length)]!;
  const healthy = machineOf(parts, nodes, (_, range) => range.nominal);
  const red = Math.floor(random() * nodes);
  const leads = [red, (red + 1 + Math.floor(random() * (nodes - 1))) % nodes] as const;
  const faulty = withFault(healthy, parts, fault.id, fault.extent?.value);
  return { seed, parts, nodes, circuit: view.circuit('standard'), fault, flats: [healthy, faulty], leads };
}

/** Supplies are apart, and the ohmmeter drives its current: 1.5 V behind 1.5 kΩ. */
function underTest(flat: Flat, [red, black]: readonly [number, number]): Flat {
  const passive = flat.straight.filter(({ id }) => !id.startsWith('G'));
  return { ...flat, straight: [...passive, { id: 'meter', a: red, b: black, ohms: 1500, volts: 1.5 }] };
}

function ohmsOf(volts: number): number {
  return 1.5 - volts < 1e-9 ? Number.POSITIVE_INFINITY : (1500 * volts) / (1.5 - volts);
}

const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

function between(measure: 'voltage' | 'resistance', red: number, black: number): MeterPlace {
  const at = (node: number) => lead(node === 0 ? 'GND-0' : `N${node}`);
  return { measure, measurePlace: place, red: at(red), black: at(black) };
}

function around(name: string): MeterPlace {
  return { measure: 'current', measurePlace: place, around: { text: name, place } };
}
