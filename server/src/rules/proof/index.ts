import type { Rule } from '../rule.ts';
import { answersDoNotTell } from './answers-do-not-tell.ts';
import { endingNoFaultReaches } from './ending-no-fault-reaches.ts';
import { goodPartCondemned } from './good-part-condemned.ts';
import { limitCouldSeparate } from './limit-could-separate.ts';
import { measurementRepeats } from './measurement-repeats.ts';
import { faultNotFound, intermittentNotCaught } from './not-found.ts';
import { repairNamesTooMuch } from './repair-names-too-much.ts';
import { repairWithoutFault } from './repair-without-fault.ts';
import { stepSplitsNothing } from './splits-nothing.ts';
import { undecidedWithinTolerances } from './undecided.ts';
import { walkGetsStuck } from './walk-gets-stuck.ts';
import { faultEndsAtWrongPart } from './wrong-part.ts';

/** What is found when every fault is walked through a procedure: all of it follows from one proof, which takes its time. */
export const proofRules: readonly Rule[] = [
  goodPartCondemned,
  faultEndsAtWrongPart,
  faultNotFound,
  intermittentNotCaught,
  walkGetsStuck,
  undecidedWithinTolerances,
  answersDoNotTell,
  stepSplitsNothing,
  measurementRepeats,
  limitCouldSeparate,
  endingNoFaultReaches,
  repairNamesTooMuch,
  repairWithoutFault,
];
