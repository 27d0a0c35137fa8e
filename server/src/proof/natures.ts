import type { Fault } from '../analysis/faults/fault.ts';
import { faultsNamed } from '../analysis/faults/names.ts';
import type { Ref } from '../model/common.ts';
import type { Nature } from '../model/procedure.ts';
import type { StepData } from '../model/step.ts';

/** What has gone for good, or has worn, does not come back by itself. Common practice, no source. */
const lasting = /\b(blown|tripped|flat|weak|cell shorted|drifted|worn|low|dead|shorted turns|stalled|welded)$/;

/** A fault is walked as one that stays and, where it can come and go, as one that does; what only eyes find is there or not. */
export function naturesOf({ kind, changes }: Fault): readonly Nature[] {
  return changes.length > 0 && !lasting.test(kind) ? ['hard', 'intermittent'] : ['hard'];
}

/** Whether names written in a procedure mean one of these faults. */
export function areNamed(faults: readonly Fault[], all: readonly Fault[], refs: readonly Ref[]): boolean {
  return faults.length > 0 && refs.some(({ text }) => faults.some(fault => meant(all, text).has(fault)));
}

function meant(all: readonly Fault[], text: string): ReadonlySet<Fault> {
  const ofList = known.get(all) ?? new Map<string, ReadonlySet<Fault>>();
  known.set(all, ofList);
  const before = ofList.get(text);
  if (before) return before;
  const fresh = new Set([...faultsNamed(all, text), ...all.filter(({ owner }) => owner === text)]);
  ofList.set(text, fresh);
  return fresh;
}

const known = new WeakMap<readonly Fault[], Map<string, ReadonlySet<Fault>>>();

/** Whether a step brings a fault out that comes and goes: by moving, heating, cooling, wetting or driving where it sits. */
export function isProvoked(faults: readonly Fault[], all: readonly Fault[], { provoke }: StepData): boolean {
  return provoke.some(({ what }) => areNamed(faults, all, what));
}
