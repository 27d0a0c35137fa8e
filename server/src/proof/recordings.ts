import type { Situation } from '../analysis/situation.ts';
import type { Module } from '../model/parts.ts';
import { partIn } from '../model/parts.ts';
import type { Action, StepData } from '../model/step.ts';
import { type Outcomes, stuck } from './outcome.ts';
import type { Patient } from './patient.ts';
import { statesShown } from './signs.ts';

type Recording = Extract<Action, { verb: 'record' }>;

/**
 * What a recorder shows. A fault that comes and goes does so while it runs: a channel has moved where it shows another state with the fault
 * than without it. What a module is fed with moves before what its pins see, and that before what it does about it.
 */
export function byRecording(
  patient: Patient,
  { branches }: StepData,
  action: Recording,
  now: Situation,
  blown: readonly string[],
): Outcomes {
  const comes = patient.nature === 'intermittent' && patient.faults.length > 0;
  const moved = comes ? action.channels.map(({ text }) => text).filter(name => moves(patient, name, now, blown)) : [];
  const isEvent =
    action.events.length === 0 || action.events.some(({ channel }) => moved.includes(channel.text))
      ? moved.length > 0
      : false;
  const first = isEvent ? earliest(patient, moved) : [];
  const wanted = first.length === 0 ? ['no event'] : first.map(name => `${name} moved first`);
  const found = wanted.flatMap(key => branches.find(branch => branch.key.text === key) ?? []);
  const taken = found.length > 0 ? found : branches.filter(({ match }) => match.on === 'otherwise');
  if (taken.length === 0) return stuck(`No branch takes \`${wanted[0]}\``, wanted[0]);
  const why = taken.length === 1 ? 'certain' : 'open';
  return { kind: 'leads on', outcomes: taken.map(branch => ({ branch, text: branch.key.text, why })), ends: [] };
}

function moves({ circuit, effect }: Patient, name: string, now: Situation, blown: readonly string[]): boolean {
  const [before, after] = [false, true].map(isPresent =>
    statesShown(channel(name), circuit, now, effect(isPresent, blown)),
  );
  return !after!.some(state => before!.includes(state));
}

function channel(name: string): string {
  return name;
}

/** The channels that nothing else in the recording can have moved. */
function earliest(patient: Patient, moved: readonly string[]): readonly string[] {
  const ranked = moved.map(name => ({ name, rank: rankOf(patient, name) }));
  const least = Math.min(...ranked.map(({ rank }) => rank));
  return ranked.filter(({ rank }) => rank === least).map(({ name }) => name);
}

/** 0: the feed of a module, 1: what its pins see, 2: what it does. */
function rankOf({ course: { system, variant } }: Patient, name: string): number {
  const module = (id: string): Module | undefined => {
    const part = system?.parts.get(id);
    const data = part && partIn(part, variant);
    return data?.kind === 'module' ? data : undefined;
  };
  const blank = name.indexOf(' ');
  if (blank < 0) return module(name.slice(0, name.lastIndexOf('.'))) ? 2 : 1;
  const data = module(name.slice(0, blank));
  const datum = data?.scanData.get(name.slice(blank + 1));
  return datum?.from && datum.from.text === data?.powered?.pin.text ? 0 : 1;
}
