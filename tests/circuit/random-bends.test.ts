import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import type { Fault } from '../../server/src/analysis/faults/fault.ts';
import { wire } from '../../server/src/analysis/lower/wiring.ts';
import { settle } from '../../server/src/analysis/settle.ts';
import { situation } from '../../server/src/analysis/situation.ts';
import type { SystemView } from '../../server/src/analysis/view.ts';
import type { PartValue } from '../../server/src/circuit/reading.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeterPlace } from '../../server/src/model/step.ts';
import { lead, systemOf } from '../analysis/support.ts';
import { type BenchPart, type Choice, type Flat, machineOf, systemText } from '../support/bench.ts';
import { withFault } from '../support/bench-faults.ts';
import { doHold, holdingPieces, pointIn } from '../support/plain-bends.ts';
import { randomBench } from '../support/random-bench.ts';
import { randomFrom } from '../support/random-network.ts';

/**
 * Networks with diodes, zener diodes, lamps and tables, every second one with a derived fault, written as system files and read as a procedure reads them, against a solver
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

/** A network as the product has it, and any machine of it as the plain solver does; every second one has a fault. */
interface Case {
  readonly seed: number;
  readonly random: () => number;
  readonly parts: readonly BenchPart[];
  readonly nodes: number;
  readonly view: SystemView;
  readonly fault: Fault | undefined;
  readonly machine: (choose: Choice) => Flat;
}

const tally = {
  ...{ bent: 0, conducting: 0, faulty: 0, numbers: 0, exact: 0, machines: 0, ends: 0, unlooked: 0 },
  ...{ 'over limit': 0, floating: 0, 'not computed': 0, worst: 0, worstEnd: 0 },
};

describe('random networks with bent parts', { timeout: 300_000 }, () => {
  it(`settle and read as trying all pieces finds: ${networks} from seed ${firstSeed} on`, () => {
    const violations: string[] = [];
    for (let k = 0; k < networks; k++) {
      const one = caseOf(firstSeed + k);
      if (one.fault) tally.faulty++;
      violations.push(...settlesOtherwise(one));
      for (const question of questionsOf(one, k)) {
        violations.push(...readsOtherwise(one, question).map(what => `seed ${one.seed}, ${question.measure}: ${what}`));
      }
    }
    const { bent, conducting, faulty, numbers, exact, machines, ends, unlooked, floating, worst, worstEnd } = tally;
    console.info(
      `${bent} bent parts (${conducting} conducting) settle alike in ${networks} networks, ${faulty} with a fault; ${numbers} numbers ` +
        `(${exact} exact), ${machines} machines, ${violations.length} violations; ${tally['over limit']} over the limit, ${floating} ` +
        `floating, ${tally['not computed']} not computed; worst relative difference ${worst.toExponential(1)} of nominal values, ` +
        `${worstEnd.toExponential(1)} of ${ends} named ends, ${unlooked} ends not looked at`,
    );
    expect(violations).toEqual([]);
    expect(worst).toBeLessThan(1e-6);
  });
});

function caseOf(seed: number): Case {
  const random = randomFrom(seed);
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
  const faults = seed % 2 ? faultsOf(view.system, 'standard').filter(({ changes }) => changes.length > 0) : [];
  const fault = seed % 2 ? faults[Math.floor(random() * faults.length)] : undefined;
  const machine = (choose: Choice) => {
    const flat = machineOf(parts, nodes, choose);
    return fault ? withFault(flat, parts, fault.id, fault.extent?.value) : flat;
  };
  return { seed, random, parts, nodes, view, fault, machine };
}

/** Where the product has a part in another piece than the plain solver, at nominal values. */
function settlesOtherwise({ seed, view, fault, machine }: Case): string[] {
  const nominal = machine(asWritten);
  const settling = settle(wire(view.system, 'standard'), view.circuit('standard').rest, {
    effect: fault && effectOf(fault),
  });
  if (!('settled' in settling)) return [`seed ${seed}: ${JSON.stringify(settling)}`];
  const ours = nominal.curves.map(({ id }) => {
    return settling.settled[0]!.states.get(id.startsWith('E') ? `${id} slope resistance` : id)!;
  });
  const holding = holdingPieces(nominal)!;
  tally.bent += ours.length;
  tally.conducting += nominal.curves.filter(({ pieces }, i) => pieces[holding[i]!]!.ohms !== undefined).length;
  if (doHold(nominal, ours)) return [];
  return [`seed ${seed}: settles in ${ours} and not in ${holding}`];
}

/** What of a reading is not as the machines have it. */
function readsOtherwise(one: Case, question: Question): string[] {
  const { parts, view, fault, random } = one;
  const { measure } = question;
  const circuit = view.circuit('standard');
  const apart = measure === 'resistance' ? parts.filter(({ kind }) => kind === 'supply').map(({ id }) => id) : [];
  const now = situation(circuit.rest.states, new Set(apart));
  const reading = circuit.read(placeOf(question), handheldMeter, now, fault && effectOf(fault));
  const shown = (choose: Choice) => shownBy(one.machine(choose), question);
  const plain = shown(asWritten);
  if (reading.state !== 'number') {
    if (!(reading.state in tally)) return [reading.state];
    tally[reading.state as 'floating']++;
    const isWrong = reading.state === 'over limit' && plain < handheldMeter.resistance.overLimitOhms;
    return isWrong ? [`over limit and not ${plain}`] : [];
  }
  tally.numbers++;
  if (reading.exact) tally.exact++;
  const found: string[] = [];
  const size = Math.max(smallest[measure], Math.abs(reading.low), Math.abs(reading.high));
  const apartBy = (a: number, b: number) => (a === b ? 0 : Math.abs(a - b) / size);
  const off = apartBy(reading.nominal, plain);
  if (off <= 1e-6) tally.worst = Math.max(tally.worst, off);
  else found.push(`${reading.nominal} and not ${plain}`);

  // Leads that are not zeroed add to what an ohmmeter shows.
  const leads = measure === 'resistance' ? handheldMeter.resistance.leadsOhms : 0;
  for (const [end, at, more] of [
    [reading.attained.low, reading.lowAt, 0],
    [reading.attained.high, reading.highAt, leads],
  ] as const) {
    const choose = chosenBy(at, reading.exact, one);
    if (!choose) {
      tally.unlooked++;
      continue;
    }
    tally.ends++;
    const reached = shown(choose) + more;
    const off = apartBy(reached, end);
    if (off <= 1e-6) tally.worstEnd = Math.max(tally.worstEnd, off);
    else found.push(`${end} is not reached, but ${reached}, by ${JSON.stringify(at)}`);
  }

  for (let m = 0; m < atEnds + anywhere; m++) {
    const place = () => (m < atEnds ? Math.round(random()) : random());
    const value = shown((_, { low, high }) => low + place() * (high - low));
    tally.machines++;
    if (value < reading.low - 1e-6 * size || value + leads > reading.high + 1e-6 * size)
      found.push(`machine ${m} has ${value}, beyond ${reading.low} .. ${reading.high}`);
  }
  return found;
}

const asWritten: Choice = (_, range) => range.nominal;

/** `R3-1 open`, `R3.1 open` and `N2 open at R3-1` have to do with R3. */
function namesIn(fault: Fault | undefined): readonly string[] {
  return fault?.id.split(/[ .-]/) ?? [];
}

const smallest = { voltage: 1, clamp: 1e-2, resistance: 1 };

function questionsOf({ parts, nodes, random, fault }: Case, k: number): Question[] {
  const red = Math.floor(random() * nodes);
  const black = (red + 1 + Math.floor(random() * (nodes - 1))) % nodes;
  const sound = parts.filter(({ id }) => !namesIn(fault).includes(id));
  const straight = sound.filter(({ kind }) => kind === 'supply' || kind === 'resistor');
  const around = straight[Math.floor(random() * straight.length)]!.id;
  const other = k % 4 < 2 ? 'clamp' : 'resistance';
  const questions = (['voltage', other] as const).map(measure => ({ measure, red, black, around }));
  const loose = looseNodes({ parts, nodes }).map(
    node => ({ measure: 'voltage', red: node, black: 0, around }) as const,
  );
  return [...questions, ...loose];
}

/** Nodes on which only bent parts hang: where these block, the meter alone ties them down. */
function looseNodes({ parts, nodes }: Pick<Case, 'parts' | 'nodes'>): number[] {
  const straight = parts.filter(({ kind }) => kind === 'supply' || kind === 'resistor');
  const held = new Set(straight.flatMap(({ a, b }) => [a, b]));
  return Array.from({ length: nodes - 1 }, (_, at) => at + 1).filter(
    node => !held.has(node) && parts.some(({ a, b }) => a === node || b === node),
  );
}

/**
 * The values that a reading names, all others nominal. Nothing where the part at fault is named by what the fault has made of its value,
 * and where tolerances were cut and that of a curve is named by the ohms of a piece.
 */
function chosenBy(named: readonly PartValue[], isWhole: boolean, { fault }: Case): Choice | undefined {
  if (named.some(({ id }) => namesIn(fault).includes(id.split(' ')[0]!))) return undefined;
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
