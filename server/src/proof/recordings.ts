import type { Situation } from '../analysis/situation.ts';
import type { Verdict } from '../analysis/test.ts';
import type { Module, ScanDatum } from '../model/parts.ts';
import { partIn } from '../model/parts.ts';
import type { Action, StepData } from '../model/step.ts';
import { certain, type Outcome, type Outcomes, stuck } from './outcome.ts';
import type { Patient } from './patient.ts';
import { statesShown } from './signs.ts';

type Recording = Extract<Action, { verb: 'record' }>;

/** The fuses that have gone before the fault comes, and after it. */
type Blown = readonly [before: readonly string[], after: readonly string[]];

/**
 * What a recorder shows. A fault that comes and goes does so while it runs: a channel has moved where it shows another state with the fault
 * than without it. What a module is fed with moves before what its pins see, and that before what it does about it.
 */
export function byRecording(
  patient: Patient,
  { branches }: StepData,
  action: Recording,
  now: Situation,
  blown: Blown,
): Outcomes {
  const comes = patient.nature === 'intermittent' && patient.faults.length > 0;
  const channels = (comes ? action.channels : []).map(({ text }) => ({
    name: text,
    moves: moves(patient, text, now, blown),
  }));
  const named = (wanted: Verdict) => channels.filter(one => one.moves === wanted).map(({ name }) => name);
  const open = named(undefined);
  const all = subsetsOf(open).flatMap(some => {
    const wanted = firstToMove(patient, action, [...named(true), ...some]);
    const found = wanted.flatMap(key => branches.find(branch => branch.key.text === key) ?? []);
    const taken = found.length > 0 ? found : branches.filter(({ match }) => match.on === 'otherwise');
    const why = open.length > 0 ? 'tolerance' : taken.length === 1 ? 'certain' : 'open';
    return taken.length > 0
      ? taken.map((branch): Outcome => ({ branch, text: branch.key.text, why }))
      : [{ branch: undefined, text: wanted[0]!, why } as const];
  });
  const outcomes = all.filter((one, i) => all.findIndex(other => other.branch === one.branch) === i);
  const [first] = outcomes;
  if (outcomes.length > 1)
    return { kind: 'leads on', outcomes, ends: open.flatMap(name => endsOf(patient, name, now, blown)) };
  return first!.branch ? certain(first!.branch, first!.text) : stuck(`No branch takes \`${first!.text}\``, first!.text);
}

function subsetsOf(names: readonly string[]): readonly (readonly string[])[] {
  const [name, ...others] = names;
  if (name === undefined) return [[]];
  return subsetsOf(others).flatMap(some => [some, [name, ...some]]);
}

function firstToMove(patient: Patient, { events }: Recording, moved: readonly string[]): readonly string[] {
  const isEvent = events.length === 0 || events.some(({ channel }) => moved.includes(channel.text));
  if (!isEvent || moved.length === 0) return ['no event'];
  return earliest(patient, moved).map(name => `${name} moved first`);
}

/** Undefined where some machines inside the tolerances may show another state with the fault than without it, and some not. */
function moves(patient: Patient, name: string, now: Situation, blown: Blown): Verdict {
  const [before, after] = inBoth(patient, blown, effect => statesShown(name, patient.circuit, now, effect));
  const [without, within] = voltsOf(patient, name, now, blown);
  if (without && within && datumOf(patient, name)?.states.length === 0) {
    if (before.join() === after.join()) return false;
    return within.low > without.high || within.high < without.low ? true : undefined;
  }
  if (!after.some(state => before.includes(state))) return true;
  if (before.length === 1 && after.length === 1) return false;
  return without && within && ends.every(end => without[end] === within[end]) ? false : undefined;
}

/** Without the fault and with it. */
function inBoth<T>(
  { effect }: Patient,
  blown: Blown,
  what: (effect: ReturnType<Patient['effect']>) => T,
): readonly [T, T] {
  return [what(effect(false, blown[0])), what(effect(true, blown[1]))];
}

const ends = ['low', 'nominal', 'high'] as const;

/** The values behind the ends of what a channel shows without the fault and with it. */
function endsOf(...asked: Parameters<typeof voltsOf>) {
  return voltsOf(...asked).flatMap(volts => (volts ? [volts.lowAt, volts.highAt] : []));
}

/** The voltage that a channel is decoded from, without the fault and with it. */
function voltsOf(patient: Patient, name: string, now: Situation, blown: Blown) {
  const named = patient.circuit.datumNamed(name);
  return inBoth(patient, blown, effect => {
    const volts = named && patient.circuit.scanVoltage(named.module, named.datum, now, effect);
    return volts?.state === 'number' ? volts : undefined;
  });
}

/** The channels that nothing else in the recording can have moved. */
function earliest(patient: Patient, moved: readonly string[]): readonly string[] {
  const ranked = moved.map(name => ({ name, rank: rankOf(patient, name) }));
  const least = Math.min(...ranked.map(({ rank }) => rank));
  return ranked.filter(({ rank }) => rank === least).map(({ name }) => name);
}

/** 0: the feed of a module, 1: what its pins see, 2: what it does. */
function rankOf(patient: Patient, name: string): number {
  const named = patient.circuit.datumNamed(name);
  if (!named) return moduleOf(patient, name.slice(0, name.lastIndexOf('.'))) ? 2 : 1;
  const module = moduleOf(patient, named.module);
  const from = module?.scanData.get(named.datum)?.from?.text;
  return from !== undefined && from === module?.powered?.pin.text ? 0 : 1;
}

function datumOf(patient: Patient, name: string): ScanDatum | undefined {
  const named = patient.circuit.datumNamed(name);
  return named && moduleOf(patient, named.module)?.scanData.get(named.datum);
}

function moduleOf({ course: { system, variant } }: Patient, id: string): Module | undefined {
  const part = system?.parts.get(id);
  const data = part && partIn(part, variant);
  return data?.kind === 'module' ? data : undefined;
}
