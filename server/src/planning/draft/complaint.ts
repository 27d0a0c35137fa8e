import { faultsOf } from '../../analysis/faults/derive.ts';
import type { Fault } from '../../analysis/faults/fault.ts';
import type { Situation } from '../../analysis/situation.ts';
import { withStates } from '../../analysis/values/changes.ts';
import type { Case } from '../../analysis/view.ts';
import type { Test } from '../../model/common.ts';
import { signHolds } from '../../proof/signs.ts';
import { type Suspect, suspectOf } from '../suspect.ts';

/** What somebody complains of, as a file says it. */
export interface Complaint {
  readonly symptom: string;
  /** Condition or part to its state, in which it is seen. */
  readonly set: readonly (readonly [name: string, state: string])[];
  /** What the machine then does: a load, an output or scan data to its state. */
  readonly when: readonly (readonly [name: string, state: string])[];
}

const nowhere = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

export function situationOf({ set }: Complaint, { circuit }: Case): Situation {
  return withStates(
    circuit.rest,
    set.map(([name, state]) => ({ name, state })),
    circuit,
  );
}

/** Faults that show the complaint and stay, and those that only eyes can find. */
export function suspectsOf(complaint: Complaint, one: Case, now: Situation): readonly Suspect[] {
  const ref = (text: string) => ({ text, place: nowhere });
  const test: Test = [complaint.when.map(([name, state]) => ({ name: ref(name), states: [ref(state)] }))];
  const shows = (fault: Fault) => signHolds(test, one.circuit, now, suspectOf(fault).effect) !== false;
  return faultsOf(one.system, one.variant)
    .filter(({ excluded }) => excluded === undefined)
    .filter(fault => fault.changes.length === 0 || shows(fault))
    .map(suspectOf);
}
