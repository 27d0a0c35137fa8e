import { faultsOf } from '../../../server/src/analysis/faults/derive.ts';
import { wire } from '../../../server/src/analysis/lower/wiring.ts';
import type { ProcedureView } from '../../../server/src/analysis/view.ts';
import { Workspace } from '../../../server/src/analysis/workspace.ts';
import type { Start } from '../../../server/src/model/procedure.ts';
import { comesBy, waysIn } from '../../../server/src/proof/entries.ts';
import type { End } from '../../../server/src/proof/explore.ts';
import { naturesOf } from '../../../server/src/proof/natures.ts';
import { makePatient } from '../../../server/src/proof/patient.ts';
import { type FaultWalk, walkFault } from '../../../server/src/proof/walk-fault.ts';
import type { Course } from '../../../server/src/walk/walk.ts';
import { randomFrom } from '../../support/random-network.ts';
import type { Places } from './electricity.ts';
import { type Generated, generate, type Random } from './generate.ts';
import { type ConcreteEnd, MachineWalk, type Sickness } from './machine-walk.ts';

export interface Tally {
  procedures: number;
  walks: number;
  machines: number;
  /** Ends that machines came to. */
  ends: number;
  /** Bad ends that the proof reports, and those of them that its own machine was taken to anew. */
  reported: number;
  again: number;
  /** Walks of which all machines come to one result, and how many of them to each. */
  single: number;
  byResult: Map<string, number>;
  /** Walks on which a machine comes to a bad end by a told way, and those of them of which the proof says so. */
  bad: number;
  badFound: number;
  /** Walks for which the proof found no machine that shows the symptom, so that it tells only what is left. */
  unnamed: number;
  differences: Difference[];
}

export interface Difference {
  readonly seed: number;
  readonly what: 'ruled out' | 'not reached' | 'verdict' | 'way in' | 'not read' | 'missed';
  readonly walk: string;
  readonly says: string;
}

export interface Effort {
  /** Machines with values at random places, beside the nominal one and those at the corners. */
  readonly machines: number;
  /** Up to so many tolerances every corner is gone through; else as many corners as machines. */
  readonly mostCorners: number;
  /** So many faults of each machine are looked at, beside the machine without one. */
  readonly faults: number;
}

export function emptyTally(): Tally {
  return {
    procedures: 0,
    walks: 0,
    machines: 0,
    ends: 0,
    reported: 0,
    again: 0,
    single: 0,
    byResult: new Map(),
    bad: 0,
    badFound: 0,
    unnamed: 0,
    differences: [],
  };
}

export function viewOf({ system, procedure }: Generated): ProcedureView {
  const workspace = new Workspace();
  workspace.set('file:///some.system.yaml', system);
  workspace.set('file:///some.procedure.yaml', procedure);
  return workspace.view('file:///some.procedure.yaml') as ProcedureView;
}

/** One random machine and procedure, proved, and then walked by one concrete machine after the other. */
export function compare(seed: number, effort: Effort, tally: Tally): void {
  const random = randomFrom(seed);
  const generated = generate(random);
  const view = viewOf(generated);
  tally.procedures++;
  const [of] = view.cases;
  const note = (what: Difference['what'], walk: string, says: string) =>
    tally.differences.push({ seed, what, walk, says });
  const problems = [...view.procedure.problems, ...(of?.system.problems ?? [])];
  if (!of || problems.length > 0) {
    note('not read', '', problems.map(({ message }) => message).join('; '));
    return;
  }
  const all = faultsOf(of.system, of.variant).filter(({ excluded }) => excluded === undefined);
  const course: Course = { procedure: view.procedure, variant: of.variant, system: of.system, of };
  // Half of the faults are such that some ending is right for them.
  const named = new Set([...view.procedure.endings.values()].flatMap(({ data }) => data.items.map(({ text }) => text)));
  const mendable = all.filter(({ mendedBy }) => mendedBy.some(name => named.has(name)));
  const half = Math.ceil(effort.faults / 2);
  const picked = new Set([undefined, ...someOf(mendable, half, random), ...someOf(all, effort.faults - half, random)]);
  for (const fault of picked) {
    for (const nature of fault ? naturesOf(fault) : (['hard'] as const)) {
      const patient = makePatient(course, of.circuit, all, fault ? [fault] : [], nature);
      const ways = waysIn(patient);
      for (const { entry, start, ready } of ways) {
        tally.walks++;
        const walk: Walk = {
          ...walkFault(patient, start, ready, one => comesBy(entry, one)),
          entry,
          start,
          sick: { all, fault, nature },
        };
        compareWalk(walk, view, effort, random, tally, (what, says) => note(what, nameOf(walk), says));
      }
    }
  }
}

interface Walk extends FaultWalk {
  readonly sick: Sickness;
  readonly entry?: Start;
  readonly start: string;
}

function someOf<T>(all: readonly T[], most: number, random: Random): readonly T[] {
  return all
    .map(one => ({ one, at: random() }))
    .sort((a, b) => a.at - b.at)
    .slice(0, most)
    .map(({ one }) => one);
}

function nameOf({ sick: { fault, nature }, entry }: Walk): string {
  return `${fault?.id ?? 'no fault'}, ${nature}, from ${entry?.symptom?.text ?? 'the start'}`;
}

function compareWalk(
  walk: Walk,
  view: ProcedureView,
  effort: Effort,
  random: Random,
  tally: Tally,
  note: (what: Difference['what'], says: string) => void,
): void {
  const { sick, entry, start } = walk;
  const [{ system, variant }] = view.cases as [ProcedureView['cases'][number]];
  const wiring = wire(system, variant);
  // Ways in that begin alike are one walk of the proof, by the first of them.
  const alike = view.procedure.entries.filter(one => (one.start ?? view.procedure.start)?.text === start);
  const on = (places: Places) => {
    const machine = new MachineWalk(view.procedure, wiring, sick, places);
    const ways = [...new Set([entry, ...alike])].flatMap(one => machine.endsFrom(one, start) ?? []);
    tally.machines++;
    return { ways: machine.isDoubtful ? [] : ways, met: machine.electricity.met, isDoubtful: machine.isDoubtful };
  };
  const found = new Map<string, ConcreteEnd>();
  const explored = new Set(walk.ends.map(({ end }) => keyOf(end)));
  let entered = 0;
  // Machines that are left out, so that all those looked at need not be all that the proof knows.
  let doubtful = 0;
  const counts = new Map<string, number>();
  const machinesAt = (end: End) => counts.get(isRound({ end }) ? 'round' : keyOf(end)) ?? 0;
  const take = (places: Places, name: string) => {
    const one = on(places);
    if (one.ways.length > 0) entered++;
    if (one.isDoubtful) doubtful++;
    for (const key of new Set(one.ways.flatMap(ends => [...ends.keys()]))) counts.set(key, (counts.get(key) ?? 0) + 1);
    for (const ends of one.ways) {
      for (const [key, end] of ends) {
        tally.ends++;
        const noted = new Set(found.keys());
        if (!found.get(key)?.isTold) found.set(key, end);
        const isKnown = end.kind === 'round' ? [...walk.ends].some(isRound) : explored.has(key);
        if (!isKnown && !noted.has(key))
          note('ruled out', `${name} comes to ${key}; explored are ${[...explored].join(', ')}`);
      }
    }
    return one;
  };
  const { met } = take(() => 0, 'the nominal machine');
  for (const { name, places } of machinesOf([...met].sort(), effort, random)) take(places, name);

  const { worst } = walk;
  const isNamed = worst.specimen !== undefined || !worst.end.path.some(({ outcome }) => outcome.why === 'tolerance');
  if (!isNamed) tally.unnamed++;
  const isBad = (result: string) => result === 'stuck' || result === 'not found' || result === 'wrong part';
  const worstKey = keyOf(worst.end);
  if (isBad(worst.result)) {
    tally.reported++;
    if (worst.specimen) {
      const { places } = worst.specimen;
      const { ways, isDoubtful } = on(id => places.get(id) ?? 0);
      tally.again++;
      const reached = ways.flatMap(ends => [...ends.values()]);
      const isThere = reached.some(end =>
        end.kind === 'round' ? isRound(worst) : `${end.kind} ${end.at}` === worstKey,
      );
      if (!isThere && !isDoubtful) {
        const ends = reached.map(end => `${end.kind} ${end.at}`).join(', ') || 'nowhere, as it shows no symptom';
        note('not reached', `${worst.specimen.key} comes to ${ends}, not to ${worstKey}`);
      }
    } else if (isNamed && machinesAt(worst.end) < entered) {
      // Without a machine of its own an end is that of every machine.
      note('not reached', `${worstKey} is sure, and machines come to ${[...found.keys()].join(', ')}`);
    }
  }
  const results = new Set([...found.values()].map(({ result }) => result));
  if (results.size === 1 && isNamed && doubtful === 0) {
    const [only] = results;
    tally.single++;
    tally.byResult.set(only!, (tally.byResult.get(only!) ?? 0) + 1);
    // A worse end of a machine between those looked at has been walked anew above.
    if (worst.result !== only && !(isBad(worst.result) && worst.specimen))
      note('verdict', `${worst.result} at ${worstKey}, and every machine ${only} at ${[...found.keys()].join(', ')}`);
  }
  const told = [...found.values()].filter(end => end.isTold && isBad(end.result));
  if (told.length > 0 && doubtful === 0) {
    tally.bad++;
    if (isBad(worst.result)) tally.badFound++;
    else note('missed', `${worst.result} at ${worstKey}, and a machine comes to ${told.map(e => `${e.kind} ${e.at}`)}`);
  }
}

function isRound({ end }: { readonly end: End }): boolean {
  return end.kind === 'stuck' && end.why === 'It goes round for ever';
}

function keyOf(end: End): string {
  return `${end.kind} ${end.kind === 'ending' ? end.name : end.at}`;
}

/** Machines at the corners of the tolerances, and at random places. */
function* machinesOf(
  tolerances: readonly string[],
  { machines, mostCorners }: Effort,
  random: Random,
): Generator<{ name: string; places: Places }> {
  if (tolerances.length === 0) return;
  const at = (place: () => number, name: string) => {
    const known = new Map(tolerances.map(id => [id, place()]));
    // A tolerance that was not met yet lies at its high end, whatever it is.
    const places: Places = id => known.get(id) ?? 1;
    return {
      name: `${name} ${[...known].map(([id, where]) => `${id}@${Number(where.toFixed(3))}`).join(',')}`,
      places,
    };
  };
  if (tolerances.length <= mostCorners) {
    for (let corner = 0; corner < 2 ** tolerances.length; corner++) {
      let bit = 0;
      yield at(() => ((corner >> bit++) & 1 ? 1 : -1), 'the corner');
    }
  } else for (let k = 0; k < machines; k++) yield at(() => (random() < 0.5 ? -1 : 1), 'the corner');
  for (let k = 0; k < machines; k++) yield at(() => 2 * random() - 1, 'the machine');
}
