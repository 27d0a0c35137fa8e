import type { Situation } from '../analysis/situation.ts';
import type { Case, ProcedureView } from '../analysis/view.ts';
import { type Proof, prove } from '../proof/prove.ts';
import { gains, rank } from '../sequence/rank.ts';
import { titleOfWhat, type What } from './candidate.ts';
import { candidatesIn } from './candidates.ts';
import { asTest, type Outcome, type Told, toldRoughly, toldSurely } from './outcomes.ts';
import { type Suspect, suspectOf } from './suspect.ts';

/** What is best done at a step, for the suspects that are left there. */
export interface Next {
  readonly step: string;
  readonly variant: string;
  readonly situation: Situation;
  /** Everything at rest, to tell what is set. */
  readonly rest: Situation;
  readonly suspects: readonly SuspectLeft[];
  /** The most telling per minute first. */
  readonly tests: readonly RankedTest[];
}

export interface SuspectLeft {
  /** Empty for a good machine. */
  readonly fault: string;
  readonly owner: string;
  readonly weight: number;
}

export interface RankedTest {
  readonly what: What;
  readonly title: string;
  readonly minutes: number;
  readonly bits: number;
  /** Infinite for what takes no time. */
  readonly bitsPerMinute: number;
  /** Mean minutes until one owner is left where this test is done first: between these two, which are one where it was proved. */
  readonly total: { readonly atLeast: number; readonly atMost: number };
  readonly splits: readonly { readonly outcome: Outcome; readonly suspects: number }[];
}

/** So many tests are looked at with all tolerances; those before them are chosen by nominal values. */
const mostTests = 12;

/**
 * Ranks what can be done at a step of a procedure, for every fault that is walked there and the good machine where it comes there.
 * Undefined where no way leads to the step, or the question was taken back.
 */
export function nextAt(
  view: ProcedureView,
  one: Case,
  step: string,
  proof: Proof = prove(view),
  cancelled: () => boolean = () => false,
): Next | undefined {
  const situation = one.flow.during(step)[0];
  if (!situation) return undefined;
  const there = proof.walks.filter(({ of, exploration }) => of === one && exploration.taken.has(step));
  const faults = [...new Map(there.map(({ fault }) => [fault?.id ?? '', fault])).values()];
  const suspects = faults.map(suspectOf);
  const all = candidatesIn(one, situation, suspects);
  const rough = gains({ suspects, tests: all.map(candidate => asTest(candidate, toldRoughly(candidate))) });
  const chosen = rough.slice(0, mostTests).map(({ test }) => all[test]!);
  const told: Told[] = [];
  for (const candidate of chosen) {
    if (cancelled()) return undefined;
    told.push(toldSurely(candidate, one, situation, suspects, view.procedure.meter));
  }
  const ranked = rank({ suspects, tests: chosen.map((candidate, i) => asTest(candidate, told[i]!)) });
  return {
    step,
    variant: one.variant,
    situation,
    rest: one.circuit.rest,
    suspects: suspects.map(left),
    tests: ranked.map(({ test, ...figures }) => ({
      what: chosen[test]!.what,
      title: titleOfWhat(chosen[test]!.what),
      minutes: chosen[test]!.minutes,
      ...figures,
      splits: told[test]!.outcomes.map((outcome, i) => ({
        outcome,
        suspects: told[test]!.by.filter(by => by === i).length,
      })),
    })),
  };
}

function left({ fault, owner, weight }: Suspect): SuspectLeft {
  return { fault: fault?.id ?? '', owner, weight };
}
