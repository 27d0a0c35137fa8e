import { faultsOf } from '../../analysis/faults/derive.ts';
import type { Situation } from '../../analysis/situation.ts';
import { withStates } from '../../analysis/values/changes.ts';
import { unwritten } from '../../base/place.ts';
import type { Test } from '../../model/common.ts';
import { signHolds } from '../../proof/signs.ts';
import type { Bench } from '../bench.ts';
import { type Suspect, suspectOf } from '../suspect.ts';

/** What somebody complains of, as a file says it. */
export interface Complaint {
  readonly symptom: string;
  /** Condition or part to its state, in which it is seen. */
  readonly set: readonly (readonly [name: string, state: string])[];
  /** What the machine then does: a load, an output or scan data to its state. */
  readonly when: readonly (readonly [name: string, state: string])[];
}

export function situationOf({ set }: Complaint, { circuit }: Bench): Situation {
  return withStates(
    circuit.rest,
    set.map(([name, state]) => ({ name, state })),
    circuit,
  );
}

/** Whether a machine without a fault shows it too, at least inside its tolerances. */
export function isShownByGood(complaint: Complaint, one: Bench): boolean {
  return shows(complaint, one, situationOf(complaint, one), suspectOf(undefined));
}

/** Faults that show the complaint and stay, and those that only eyes can find. */
export function suspectsOf(complaint: Complaint, one: Bench, now: Situation): readonly Suspect[] {
  return faultsOf(one.system, one.variant)
    .filter(({ excluded }) => excluded === undefined)
    .map(suspectOf)
    .filter(suspect => suspect.fault!.changes.length === 0 || shows(complaint, one, now, suspect));
}

function shows({ when }: Complaint, { circuit }: Bench, now: Situation, { effect }: Suspect): boolean {
  const test: Test = [when.map(([name, state]) => ({ name: unwritten(name), states: [unwritten(state)] }))];
  return signHolds(test, circuit, now, effect) !== false;
}
