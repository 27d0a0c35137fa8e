import { describe, expect, it } from 'vitest';
import { wire } from '../../server/src/analysis/lower/wiring.ts';
import { settle } from '../../server/src/analysis/settle.ts';
import { situation } from '../../server/src/analysis/situation.ts';
import type { PartValue } from '../../server/src/circuit/reading.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeterPlace } from '../../server/src/model/step.ts';
import { lead, systemOf } from '../analysis/support.ts';
import { type BenchPart, type Choice, type Flat, machineOf, systemText } from '../support/bench.ts';
import { holdingPieces, pointIn } from '../support/plain-bends.ts';
import { randomBench } from '../support/random-bench.ts';
import { randomFrom } from '../support/random-network.ts';

/**
 * Networks with diodes, zener diodes, lamps and tables, written as system files and read as a procedure reads them, against a solver
 * that shares nothing with the product: it tries every combination of pieces (`plain-bends.ts`) on equations of its own
 * (`modified-nodal.ts`). Each network has its own seed.
 */
const networks = 1000;
const firstSeed = 20_261_126;
/** Machines whose values are all at ends of their ranges, and those with values anywhere. */
const [atEnds, anywhere] = [6, 4];

interface Question {
  readonly measure: 'voltage' | 'clamp' | 'resistance';
  readonly red: number;
  readonly black: number;
  readonly around: string;
}

describe('random networks with bent parts', { timeout: 120_000 }, () => {
  it(`settle and read as trying all pieces finds: ${networks} from seed ${firstSeed} on`, () => {
    const violations: string[] = [];
    const tally = { numbers: 0, machines: 0, exact: 0, 'over limit': 0, floating: 0, 'not computed': 0 };
    let [states, bent, worst, worstEnd, ends, unlooked] = [0, 0, 0, 0, 0, 0];
    for (let k = 0; k < networks; k++) {
      const random = randomFrom(firstSeed + k);
      const nodes = 3 + Math.floor(random() * 4);
      const parts = randomBench(random, {
        nodes,
        supplies: 1 + Math.floor(random() * 2),
        // One less than a tree has: a bent part may be the only way between two halves.
        resistors: nodes - 2 + Math.floor(random() * 5),
        curves: 1 + Math.floor(random() * 3),
        lines: 0,
        uncertain: 0.5,
        percent: [2, 8, 30][Math.floor(random() * 3)]!,
      });
      const view = systemOf(systemText(parts, nodes));
      const circuit = view.circuit('standard');
      const nominal = machineOf(parts, nodes, (_, range) => range.nominal);

      const holding = holdingPieces(nominal)!;
      const settling = settle(wire(view.system, 'standard'), circuit.rest);
      expect(settling, `seed ${firstSeed + k}`).toHaveProperty('settled');
      if (!('settled' in settling)) continue;
      const ours = nominal.curves.map(({ id }) => {
        return settling.settled[0]!.states.get(id.startsWith('E') ? `${id} slope resistance` : id)!;
      });
      // Where a part carries nothing at the very end of a piece, two of them hold.
      if (String(holdingPieces(nominal, ours)) !== String(ours))
        violations.push(`seed ${firstSeed + k}: settles in ${ours} and not in ${holding}`);
      states += ours.length;
      bent += nominal.curves.filter(({ pieces }, i) => pieces[holding[i]!]!.ohms !== undefined).length;

      for (const question of questionsOf(parts, nodes, k, random)) {
        const apart = question.measure === 'resistance' ? parts.filter(p => p.kind === 'supply').map(p => p.id) : [];
        const now = situation(circuit.rest.states, new Set(apart));
        const reading = circuit.read(placeOf(question), handheldMeter, now);
        const where = `seed ${firstSeed + k}, ${question.measure}`;
        const machine = (choose: Choice) => shownBy(machineOf(parts, nodes, choose), question);
        const plain = machine((_, range) => range.nominal);
        if (reading.state !== 'number') {
          if (!(reading.state in tally)) violations.push(`${where}: ${reading.state}`);
          else tally[reading.state as keyof typeof tally]++;
          if (reading.state === 'over limit' && plain < handheldMeter.resistance.overLimitOhms)
            violations.push(`${where}: over limit and not ${plain}`);
          continue;
        }
        tally.numbers++;
        if (reading.exact) tally.exact++;
        const size = Math.max(smallest[question.measure], Math.abs(reading.low), Math.abs(reading.high));
        const off = reading.nominal === plain ? 0 : Math.abs(reading.nominal - plain) / size;
        if (off <= 1e-6) worst = Math.max(worst, off);
        else violations.push(`${where}: ${reading.nominal} and not ${plain}`);
        for (const [end, at] of [
          [reading.attained.low, reading.lowAt],
          [reading.attained.high, reading.highAt],
        ] as const) {
          const choose = chosenBy(at, reading.exact);
          if (!choose) {
            unlooked++;
            continue;
          }
          const shown = machine(choose);
          ends++;
          const lead =
            question.measure === 'resistance' && end === reading.attained.high ? handheldMeter.resistance.leadsOhms : 0;
          const off = shown + lead === end ? 0 : Math.abs(shown + lead - end) / size;
          if (off > 1e-6) violations.push(`${where}: ${end} is not reached, but ${shown}, by ${JSON.stringify(at)}`);
          else worstEnd = Math.max(worstEnd, off);
        }
        const leads = question.measure === 'resistance' ? handheldMeter.resistance.leadsOhms : 0;
        for (let m = 0; m < atEnds + anywhere; m++) {
          const shown = machine(
            (_, { low, high }) => low + (m < atEnds ? Math.round(random()) : random()) * (high - low),
          );
          tally.machines++;
          for (const one of [shown, shown + leads]) {
            if (one < reading.low - 1e-6 * size || one > reading.high + 1e-6 * size)
              violations.push(`${where}, machine ${m}: ${one} beyond ${reading.low} .. ${reading.high}`);
          }
        }
      }
    }
    console.info(
      `${states} bent parts (${bent} conducting) settle alike; ${tally.numbers} numbers (${tally.exact} exact), ${tally.machines} machines, ` +
        `${violations.length} violations; ${tally['over limit']} over the limit, ${tally.floating} floating, ` +
        `${tally['not computed']} not computed; worst relative difference ${worst.toExponential(1)} of nominal values, ` +
        `${worstEnd.toExponential(1)} of ${ends} named ends, ${unlooked} ends not looked at`,
    );
    expect(violations).toEqual([]);
    expect(worst).toBeLessThan(1e-6);
  });
});

const smallest = { voltage: 1, clamp: 1e-2, resistance: 1 };

function questionsOf(parts: readonly BenchPart[], nodes: number, k: number, random: () => number): Question[] {
  const red = Math.floor(random() * nodes);
  const black = (red + 1 + Math.floor(random() * (nodes - 1))) % nodes;
  const straight = parts.filter(({ kind }) => kind === 'supply' || kind === 'resistor');
  const around = straight[Math.floor(random() * straight.length)]!.id;
  const other = k % 2 ? 'clamp' : 'resistance';
  return (['voltage', other] as const).map(measure => ({ measure, red, black, around }));
}

/**
 * The values that a reading names, all others nominal. Nothing where tolerances were cut and one is named by the ohms of a piece, which
 * do not say where in the tolerance of its curve that is.
 */
function chosenBy(named: readonly PartValue[], isWhole: boolean): Choice | undefined {
  const isPiece = ({ id }: PartValue) => id.startsWith('X') || id.endsWith(' slope resistance');
  if (!isWhole && named.some(isPiece)) return undefined;
  const by = (id: string, sign = 1) => named.find(one => one.id === id && one.value * sign >= 0);
  return (name, range) => {
    const [id] = name.split(' ');
    if (name.endsWith(' forward')) return by(`${id} drop`)?.value ?? range.nominal;
    if (name.endsWith(' breakdown')) return -(by(`${id} drop`, -1)?.value ?? -range.nominal);
    // More current is less resistance.
    if (name.endsWith(' scale'))
      return range[{ low: 'high', nominal: 'nominal', high: 'low' }[by(id!)?.end ?? 'nominal'] as 'low'];
    const one = by(name);
    return isPiece({ id: name } as PartValue) ? range[one?.end ?? 'nominal'] : (one?.value ?? range.nominal);
  };
}

const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

function placeOf({ measure, red, black, around }: Question): MeterPlace {
  if (measure === 'clamp') return { measure: 'current', measurePlace: place, around: { text: around, place } };
  const at = (node: number) => lead(node === 0 ? 'GND-0' : `N${node}`);
  return { measure, measurePlace: place, red: at(red), black: at(black) };
}

/** What the meter shows of one machine: 10 MΩ for volts; 1.5 V behind 1.5 kΩ for ohms, and no supply in its place. */
function shownBy(flat: Flat, { measure, red, black, around }: Question): number {
  switch (measure) {
    case 'voltage': {
      const metered = {
        ...flat,
        straight: [...flat.straight, { id: 'meter', a: red, b: black, ohms: 10e6, volts: 0 }],
      };
      return pointIn(metered, holdingPieces(metered)!, red).volts(red, black);
    }
    case 'clamp': {
      const at = flat.straight.findIndex(({ id }) => id === around);
      const amps = pointIn(flat, holdingPieces(flat)!, flat.straight[at]!.a).amps(at);
      return flat.straight[at]!.volts === 0 ? amps : -amps;
    }
    case 'resistance': {
      const passive = flat.straight.filter(({ volts }) => volts === 0);
      const [openV, inside] = [1.5, 1500];
      const meter = { id: 'meter', a: red, b: black, ohms: inside, volts: openV };
      const tested = { ...flat, straight: [...passive, meter] };
      const volts = pointIn(tested, holdingPieces(tested)!, red).volts(red, black);
      const left = openV - volts;
      return left <= 1e-12 ? Number.POSITIVE_INFINITY : (inside * volts) / left;
    }
  }
}
