import type { Fault } from '../analysis/faults/fault.ts';
import { limitAt } from '../analysis/limits.ts';
import type { EndingData, Meter } from '../model/procedure.ts';
import type { StepData } from '../model/step.ts';
import { type Course, stand } from '../walk/walk.ts';
import { comesBy, type WayIn, wordsOf } from './entries.ts';
import type { Patient } from './patient.ts';
import { type FaultWalk, walkFault } from './walk-fault.ts';

interface Remembered {
  readonly walk: FaultWalk;
  /** How it came in: where it starts, what its entry says, which fuses had gone, and what is measured with. */
  readonly by: string;
  /** What it went by: steps and endings as they were, and what limits from the circuit came to. */
  readonly met: ReadonlyMap<string, { readonly data: Data; readonly limit: string }>;
}

type Data = StepData | EndingData | undefined;

/** Walks by the list of faults, which is another one for every version of a system. */
const memory = new WeakMap<readonly Fault[], Map<string, Remembered>>();

/**
 * The walk of a patient from one way in. It is kept while every step and ending that it met is unchanged, so that after an edit only
 * those faults are walked again that come by what was edited.
 */
export function walkRemembered(patient: Patient, { entry, start, ready }: WayIn, cancelled: () => boolean): FaultWalk {
  const { all, course, faults, nature } = patient;
  const walks = memory.get(all) ?? new Map<string, Remembered>();
  memory.set(all, walks);
  const meter = meterKey(course.procedure.meter);
  const id = faults.map(fault => fault.id).join(' & ');
  const by = [start, ready.blown.join(), meter, entry ? wordsOf(entry) : ''].join('|');
  // One for each place in the list of entries: while an entry is being typed, each of its words would leave walks behind.
  const place = entry ? course.procedure.entries.indexOf(entry) : -1;
  const key = [course.procedure.uri, place, nature, id].join('|');
  const before = walks.get(key);
  if (before?.by === by && isUnchanged(before, course)) return before.walk;
  const walk = walkFault(patient, start, ready, specimen => comesBy(entry, specimen), cancelled);
  if (cancelled()) return walk;
  const met = new Map(
    [...walk.exploration.met].map(([name, data]) => [name, { data, limit: limitFrom(data, course) }]),
  );
  walks.set(key, { walk, by, met });
  return walk;
}

function meterKey(meter: Meter): string {
  const known = meterKeys.get(meter) ?? JSON.stringify(meter);
  meterKeys.set(meter, known);
  return known;
}

const meterKeys = new WeakMap<Meter, string>();

function isUnchanged({ met }: Remembered, course: Course): boolean {
  for (const [name, { data, limit }] of met) {
    const now = stand(course, name);
    const known = now.kind === 'nowhere' ? undefined : now.data;
    if (known !== data || limitFrom(known, course) !== limit) return false;
  }
  return true;
}

/** What limits that are left to the circuit come to: they depend on every way that leads to their step. */
function limitFrom(data: Data, { of }: Course): string {
  if (!data || !('action' in data)) return '';
  const { action } = data;
  const isDerived = (action.verb === 'measure' || action.verb === 'read') && action.limits && !action.limits.limit;
  return isDerived ? JSON.stringify(limitAt(data, of)) : '';
}
