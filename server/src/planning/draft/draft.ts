import type { Bench } from '../bench.ts';
import { suspectOf } from '../suspect.ts';
import { type Complaint, situationOf, suspectsOf } from './complaint.ts';
import { slug } from './text.ts';
import { planTests } from './tree.ts';
import { writeDraft } from './write.ts';

/** A procedure written from a system file alone. */
export interface Drafted {
  /** Of the procedure; its file is called by it, too. */
  readonly name: string;
  readonly text: string;
  /** Mean minutes of its tests over all suspects, without looking and trying; and what no order of the same tests goes below. */
  readonly minutes: number;
  readonly lowerBound: number;
  readonly optimal: boolean;
  /** Faults that show the complaint, with those that only eyes find; 0 where there are only these, for nothing tells what they do. */
  readonly suspects: number;
}

export interface DraftOptions {
  /** Ends the search of the best order early: the procedure is whole even so. */
  readonly cancelled?: () => boolean;
}

/**
 * Writes a procedure for a complaint on one variant: look first, confirm the complaint, then the best order found of what can be read and
 * measured while the complaint shows, a repair for each fault or group of faults that no test parts, and a confirmation of the repair.
 */
export function draft(complaint: Complaint, one: Bench, file: string, { cancelled }: DraftOptions = {}): Drafted {
  const now = situationOf(complaint, one);
  const all = suspectsOf(complaint, one, now);
  const items = all.filter(({ fault }) => fault!.changes.length === 0);
  const suspects = all.filter(({ fault }) => fault!.changes.length > 0);
  const planned = planTests(one, now, suspects, suspectOf(undefined), cancelled);
  const { minutes, lowerBound, optimal } = planned.best;
  return {
    name: slug(complaint.symptom),
    text: writeDraft(complaint, one, file, items, suspects, planned),
    minutes,
    lowerBound,
    optimal,
    suspects: suspects.length === 0 ? 0 : all.length,
  };
}
