import type { ProcedureView } from '../../analysis/view.ts';
import { type Proof, type ProvedWalk, prove } from '../../proof/prove.ts';
import { isBad } from '../../proof/walk-fault.ts';

/** The walks of all faults, once for each version of a procedure. */
export function proofOf(view: ProcedureView, cancelled?: () => boolean): Proof {
  const before = perView.get(view);
  if (before) return before;
  const fresh = prove(view, { cancelled });
  if (!fresh.isCancelled) perView.set(view, fresh);
  return fresh;
}

const perView = new WeakMap<ProcedureView, Proof>();

/**
 * The walks that findings are about: those by an entry that says what brings a technician there. By one that only names a symptom every
 * fault of the machine would come, and most of what is found then is that the author did not mean them.
 */
export function walksIn(view: ProcedureView): readonly ProvedWalk[] {
  return saysWhatItShows(view) ? proofOf(view).walks : [];
}

export function saysWhatItShows({ procedure: { entries } }: ProcedureView): boolean {
  return entries.length > 0 && entries.every(({ when, shows }) => when !== undefined || shows.length > 0);
}

/** Walks of faults that come to a bad end of this kind. */
export function badWalks(view: ProcedureView, isMeant: (walk: ProvedWalk) => boolean): readonly ProvedWalk[] {
  return walksIn(view).filter(walk => isBad(walk.worst.result) && isMeant(walk));
}
