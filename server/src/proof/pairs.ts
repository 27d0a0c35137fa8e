import type { Fault } from '../analysis/faults/fault.ts';
import type { Case, ProcedureView } from '../analysis/view.ts';
import type { Course } from '../walk/walk.ts';
import { comesBy, waysIn } from './entries.ts';
import { makePatient } from './patient.ts';
import { possibleFaults } from './prove.ts';
import { isBad, type Result, walkFault } from './walk-fault.ts';

/** Machines with two hard faults at once, walked through a procedure in one variant. */
export interface PairsWalked {
  readonly of: Case;
  /** Pairs of faults that there are. */
  readonly possible: number;
  /** How many of them were tried: all, or so many chosen evenly. */
  readonly tried: number;
  /** Those of them that show a symptom or code of the procedure. */
  readonly shown: number;
  readonly byResult: Readonly<Record<Result, number>>;
  /** Pairs that end badly, though a repair that names either of the two counts as right. */
  readonly bad: readonly BadPair[];
}

export interface BadPair {
  readonly faults: readonly [string, string];
  readonly result: Result;
  /** The ending, or the step where it is stuck. */
  readonly at: string;
}

export interface PairsOptions {
  /** So many pairs are tried in each variant at most. */
  readonly most: number;
  readonly cancelled?: () => boolean;
}

/**
 * Walks pairs of hard faults. The first repair must name one of the two; what is left is found when the confirmation fails. Where there are
 * more pairs than are to be tried, every so many-th is, in the order of the list, so that the same question tries the same pairs.
 */
export function provePairs(
  { procedure, cases }: ProcedureView,
  { most, cancelled = () => false }: PairsOptions,
): readonly PairsWalked[] {
  return cases.map(of => {
    const course: Course = { procedure, variant: of.variant, system: of.system, of };
    const all = possibleFaults(of);
    const possible = (all.length * (all.length - 1)) / 2;
    const tried = Math.min(possible, most);
    const byResult = { right: 0, several: 0, 'handed on': 0, unknown: 0, stuck: 0, 'not found': 0, 'wrong part': 0 };
    const bad: BadPair[] = [];
    let shown = 0;
    let done = 0;
    for (; done < tried && !cancelled(); done++) {
      const [a, b] = pairAt(all, Math.floor((done * possible) / tried));
      const patient = makePatient(course, of.circuit, all, [a, b], 'hard');
      const [way] = waysIn(patient);
      if (!way) continue;
      shown++;
      const { worst } = walkFault(patient, way.start, way.ready, specimen => comesBy(way.entry, specimen));
      byResult[worst.result]++;
      if (!isBad(worst.result)) continue;
      const at = worst.end.kind === 'ending' ? worst.end.name : worst.end.at;
      bad.push({ faults: [a.id, b.id], result: worst.result, at });
    }
    return { of, possible, tried: done, shown, byResult, bad };
  });
}

/** The pairs in order: the first with each other, the second with each after it, and so on. */
function pairAt(all: readonly Fault[], place: number): readonly [Fault, Fault] {
  let left = place;
  for (let i = 0; ; i++) {
    const many = all.length - 1 - i;
    if (left < many) return [all[i]!, all[i + 1 + left]!];
    left -= many;
  }
}
