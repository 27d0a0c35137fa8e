import { faultsOf } from '../analysis/faults/derive.ts';
import type { Fault } from '../analysis/faults/fault.ts';
import type { Case, ProcedureView } from '../analysis/view.ts';
import type { Nature, Start } from '../model/procedure.ts';
import type { Course } from '../walk/walk.ts';
import { naturesOf, type WayIn, waysIn } from './entries.ts';
import { makePatient, type Patient } from './patient.ts';
import { type FaultWalk, walkFault } from './walk-fault.ts';

/** One fault, or none, walked from one way in on one variant. */
export interface ProvedWalk extends FaultWalk {
  /** Absent: the machine has no fault. */
  readonly fault?: Fault;
  readonly nature: Nature;
  readonly of: Case;
  readonly entry?: Start;
  readonly start: string;
}

/** What is known of one procedure when every fault has been walked. */
export interface Proof {
  readonly walks: readonly ProvedWalk[];
  /** Faults of each variant that show none of the symptoms or codes that the procedure starts from. */
  readonly elsewhere: readonly { readonly of: Case; readonly fault: Fault; readonly nature: Nature }[];
}

export interface ProveOptions {
  readonly cancelled?: () => boolean;
}

/** Walks every fault that is modelled, hard and intermittent, and the machine without one, through the procedure in every variant. */
export function prove(view: ProcedureView, { cancelled = () => false }: ProveOptions = {}): Proof {
  const walks: ProvedWalk[] = [];
  const elsewhere: { of: Case; fault: Fault; nature: Nature }[] = [];
  for (const of of view.cases) {
    const course: Course = { procedure: view.procedure, variant: of.variant, system: of.system, of };
    const all = faultsOf(of.system, of.variant).filter(({ excluded }) => excluded === undefined);
    const patient = (faults: readonly Fault[], nature: Nature) => makePatient(course, of.circuit, all, faults, nature);
    walks.push(...walkAll(patient([], 'hard'), of));
    for (const fault of all) {
      for (const nature of naturesOf(fault)) {
        if (cancelled()) return { walks, elsewhere };
        const found = walkAll(patient([fault], nature), of);
        if (found.length === 0) elsewhere.push({ of, fault, nature });
        walks.push(...found);
      }
    }
  }
  return { walks, elsewhere };
}

function walkAll(patient: Patient, of: Case): readonly ProvedWalk[] {
  const { nature, faults } = patient;
  return waysIn(patient).map(({ entry, start, ready }: WayIn) => ({
    ...walkFault(patient, start, ready),
    fault: faults[0],
    nature,
    of,
    entry,
    start,
  }));
}
