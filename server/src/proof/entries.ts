import type { Fault } from '../analysis/faults/fault.ts';
import { follow } from '../analysis/make-flow.ts';
import { BoundedMap } from '../base/bounded-map.ts';
import type { Start } from '../model/procedure.ts';
import { startOf } from '../walk/walk.ts';
import { areNamed } from './natures.ts';
import type { Patient } from './patient.ts';
import { signHolds } from './signs.ts';
import { type Moment, withBlown } from './step.ts';

/** One way into a procedure, on a machine that has just shown its symptom. */
export interface WayIn {
  readonly entry: Start | undefined;
  readonly start: string;
  readonly ready: Moment;
}

/** The ways in by which the effects of a fault can bring a technician; without a fault, all of them. */
export function waysIn(patient: Patient): readonly WayIn[] {
  const { procedure } = patient.course;
  const entries: readonly (Start | undefined)[] = procedure.entries.length > 0 ? procedure.entries : [undefined];
  const found = entries.flatMap((entry): WayIn[] => {
    const start = startOf(procedure, entry);
    const ready = start === undefined ? undefined : readyRemembered(patient, entry);
    return start !== undefined && ready ? [{ entry, start, ready }] : [];
  });
  const key = ({ start, ready }: WayIn) => `${start}|${ready.blown.join()}`;
  return found.filter((one, i) => found.findIndex(other => key(other) === key(one)) === i);
}

/** Whether a machine shows what an entry says, so that somebody is called to it. */
export function comesBy(entry: Start | undefined, patient: Patient): boolean {
  return readyFor(patient, entry) !== undefined;
}

/** Kept for every entry that says the same, for the machine has to settle once more to know it. */
function readyRemembered(patient: Patient, entry: Start | undefined): Moment | undefined {
  const { all, faults, nature } = patient;
  const known = memory.get(all) ?? new BoundedMap<string, Moment | undefined>(mostEntries * 2 * (all.length + 1));
  memory.set(all, known);
  const key = `${nature}|${faults.map(({ id }) => id).join(' & ')}|${entry ? wordsOf(entry) : ''}`;
  return known.remember(key, () => readyFor(patient, entry));
}

const memory = new WeakMap<readonly Fault[], BoundedMap<string, Moment | undefined>>();

/** So many entries are kept for every fault, hard and intermittent. */
const mostEntries = 32;

/** All that decides who comes in by an entry. */
export function wordsOf(entry: Start): string {
  const before = words.get(entry);
  if (before !== undefined) return before;
  const { set, when, shows, nature } = entry;
  const test = when?.map(parts => parts.map(({ name, states }) => [name.text, ...states.map(({ text }) => text)]));
  const fresh = JSON.stringify([
    set.map(one => [one.name.text, one.state.text]),
    test,
    shows.map(one => one.text),
    nature,
  ]);
  words.set(entry, fresh);
  return fresh;
}

const words = new WeakMap<Start, string>();

/** The fuses that have gone while the symptom was seen; undefined where the fault does not show it. */
function readyFor(patient: Patient, entry: Start | undefined): Moment | undefined {
  const { circuit, faults, all, nature, effect } = patient;
  const rest: Moment = { situation: circuit.rest, blown: [] };
  if (!entry || faults.length === 0) return rest;
  if (entry.nature !== undefined && entry.nature !== nature) return undefined;
  const seen = follow({ set: entry.set, connect: [], refit: [] }, circuit.rest, circuit, effect(true, []));
  const blown = withBlown(patient, seen, true, []);
  const ready = { ...rest, blown };
  if (areNamed(faults, all, entry.shows)) return ready;
  if (entry.when) return signHolds(entry.when, circuit, seen, effect(true, blown)) === false ? undefined : ready;
  return entry.shows.length === 0 ? ready : undefined;
}
