import { faultsOf } from '../analysis/faults/derive.ts';
import type { Fault } from '../analysis/faults/fault.ts';
import type { Case, ProcedureView } from '../analysis/view.ts';
import type { Nature, Start } from '../model/procedure.ts';
import type { Course } from '../walk/walk.ts';
import { type WayIn, waysIn } from './entries.ts';
import { areNamed, naturesOf } from './natures.ts';
import { makePatient, type Patient } from './patient.ts';
import { walkRemembered } from './remembered.ts';
import type { FaultWalk } from './walk-fault.ts';

/** One fault, or none, walked from one way in on one variant. */
export interface ProvedWalk extends FaultWalk {
  /** Absent: the machine has no fault. */
  readonly fault?: Fault;
  readonly nature: Nature;
  readonly of: Case;
  readonly entry?: Start;
  readonly start: string;
}

/** A fault that is not walked. */
export interface Unwalked {
  readonly of: Case;
  readonly fault: Fault;
  readonly nature: Nature;
}

/** What is known of one procedure when every fault has been walked. */
export interface Proof {
  readonly cases: readonly Case[];
  readonly walks: readonly ProvedWalk[];
  /** Faults that show none of the symptoms or codes that the procedure starts from. */
  readonly elsewhere: readonly Unwalked[];
  /** Faults that the file leaves to others. */
  readonly leftOut: readonly (Unwalked & { readonly because: string })[];
  /** The question was taken back before all was walked. */
  readonly isCancelled: boolean;
}

export interface ProveOptions {
  readonly cancelled?: () => boolean;
}

/** Walks every fault that is modelled, hard and intermittent, and the machine without one, through the procedure in every variant. */
export function prove(view: ProcedureView, { cancelled = () => false }: ProveOptions = {}): Proof {
  const { cases } = view;
  const walks: ProvedWalk[] = [];
  const elsewhere: Unwalked[] = [];
  const leftOut: (Unwalked & { because: string })[] = [];
  for (const of of cases) {
    const course: Course = { procedure: view.procedure, variant: of.variant, system: of.system, of };
    const all = possibleFaults(of);
    const patient = (faults: readonly Fault[], nature: Nature) => makePatient(course, of.circuit, all, faults, nature);
    const good = patient([], 'hard');
    walks.push(...walkEach(good, waysIn(good), of, cancelled));
    for (const fault of all) {
      const because = view.procedure.leavesOut.find(({ name }) => areNamed([fault], all, [name]))?.because;
      for (const nature of naturesOf(fault)) {
        if (cancelled()) return { cases, walks, elsewhere, leftOut, isCancelled: true };
        const sick = patient([fault], nature);
        const ways = waysIn(sick);
        if (ways.length === 0) elsewhere.push({ of, fault, nature });
        else if (because !== undefined) leftOut.push({ of, fault, nature, because });
        else walks.push(...walkEach(sick, ways, of, cancelled));
      }
    }
  }
  return { cases, walks, elsewhere, leftOut, isCancelled: cancelled() };
}

/** All faults but those that the system file excludes. Equal questions get the same list. */
export function possibleFaults({ system, variant }: Case): readonly Fault[] {
  const all = faultsOf(system, variant);
  const before = possible.get(all);
  if (before) return before;
  const fresh = all.filter(({ excluded }) => excluded === undefined);
  possible.set(all, fresh);
  return fresh;
}

const possible = new WeakMap<readonly Fault[], readonly Fault[]>();

function walkEach(patient: Patient, ways: readonly WayIn[], of: Case, cancelled: () => boolean): readonly ProvedWalk[] {
  const { nature, faults } = patient;
  return ways.map(way => ({
    ...walkRemembered(patient, way, cancelled),
    fault: faults[0],
    nature,
    of,
    entry: way.entry,
    start: way.start,
  }));
}
