import { nominalSpecimen, type Specimen, specimenAt } from '../analysis/specimen.ts';
import { type End, type Exploration, type Explored, explore, goesRound, type Move } from './explore.ts';
import { onSpecimen, type Patient } from './patient.ts';
import type { Moment } from './step.ts';
import { type Verdict, verdictAt } from './verdict.ts';

/** What becomes of a machine at the end of a walk. */
export type Result = Verdict | 'stuck' | 'unknown';

export interface Walked {
  readonly result: Result;
  readonly end: End;
  /** The machine that comes to this end. Absent: each one inside the tolerances can. */
  readonly specimen?: Specimen;
  /** Some machines inside the tolerances come to it and others to better ends. */
  readonly isUndecided: boolean;
}

export interface FaultWalk {
  /** The worst end that a machine which can be named comes to, whatever is answered where the model does not tell. */
  readonly worst: Walked;
  /** Every end with what it is: those that named machines come to, and those that are not ruled out. */
  readonly ends: readonly Judged[];
  /**
   * Bad ends that are neither proved nor ruled out: by an answer of which nothing says who gives it, or by values in which no machine
   * could be named.
   */
  readonly unproved: readonly Judged[];
  readonly exploration: Exploration;
}

export interface Judged {
  readonly end: End;
  readonly result: Result;
}

/** From the best to the worst. */
const order: readonly Result[] = ['right', 'several', 'handed on', 'unknown', 'stuck', 'not found', 'wrong part'];

/** What an end is for the patient. */
export function resultAt(end: End, { faults }: Patient): Result {
  return end.kind === 'ending' ? verdictAt(end.data, faults) : end.kind;
}

export function isBad(result: Result): boolean {
  return result === 'stuck' || result === 'not found' || result === 'wrong part';
}

/**
 * Walks a patient from one way in. All machines inside the tolerances go together, which rules out what none of them does; an end that only some
 * may come to counts only if one machine is found that comes to it from the first step to the last. Where the model does not tell
 * what is answered, a bad end counts only if every answer leads to one.
 */
export function walkFault(
  patient: Patient,
  start: string,
  ready: Moment,
  admits: (specimen: Patient) => boolean = () => true,
  cancelled?: () => boolean,
): FaultWalk {
  const { exploration, corners } = explore(patient, start, ready, cancelled);
  const ends = judgedIn(exploration, patient);
  const tried = new Map<string, Tried>();
  const on = (specimen: Specimen) => {
    const before = tried.get(specimen.key);
    if (before) return before.own;
    const one = onSpecimen(patient, specimen);
    const own = admits(one) ? explore(one, start, ready, cancelled).exploration : undefined;
    tried.set(specimen.key, { specimen, own });
    return own;
  };
  const told = ends.filter(({ end }) => !isOpenWay(end));
  const candidates = told.length > 0 || ends.some(({ result }) => !isBad(result)) ? told : ends;
  const found = firstOf(candidates, one => named(one, ends, corners, on));
  const worst = (isSettled(found, ends) ? found : ofMachine(patient, ends, on, tried, found)) ?? found ?? asGood(ends);
  const unproved = ends.filter(({ end, result }) => isBad(result) && !isSameEnd(end, worst.end));
  return { worst, ends, unproved: isBad(worst.result) ? [] : unproved, exploration };
}

interface Tried {
  readonly specimen: Specimen;
  readonly own: Exploration | undefined;
}

/** From the worst to the best. */
function judgedIn({ ends }: Exploration, patient: Patient): readonly Judged[] {
  return ends
    .map((end): Judged => ({ end, result: resultAt(end, patient) }))
    .sort((a, b) => order.indexOf(b.result) - order.indexOf(a.result));
}

function isSettled(found: Walked | undefined, ends: readonly Judged[]): boolean {
  return ends.length === 1 || (found !== undefined && isBad(found.result));
}

/** The best that a machine comes to whatever is answered: where that is bad, or where no machine has been found otherwise. */
function ofMachine(
  patient: Patient,
  ends: readonly Judged[],
  on: OnSpecimen,
  tried: ReadonlyMap<string, Tried>,
  found: Walked | undefined,
): Walked | undefined {
  on(nominalSpecimen);
  const bests = [...tried.values()].flatMap(({ specimen, own }): Walked[] => {
    const best = own && judgedIn(own, patient).at(-1);
    return best ? [{ ...best, specimen, isUndecided: isBad(best.result) && ends.some(one => !isBad(one.result)) }] : [];
  });
  return bests.find(({ result }) => isBad(result)) ?? (found ? undefined : bests[0]);
}

/** All that is known is what no machine comes to; the best of the rest is taken. */
function asGood(ends: readonly Judged[]): Walked {
  return { ...ends.at(-1)!, isUndecided: false };
}

function named(
  { end, result }: Judged,
  ends: readonly Judged[],
  corners: Explored['corners'],
  on: OnSpecimen,
): Walked | undefined {
  if (end.path.every(isSure)) return { result, end, isUndecided: false };
  const one = nameOne(end, corners, on);
  if (!one) return undefined;
  const [specimen, own] = one;
  return { result, end: own, specimen, isUndecided: isBad(result) && ends.some(other => !isBad(other.result)) };
}

/** Undefined for a machine that does not show what brings a technician here. */
type OnSpecimen = (specimen: Specimen) => Exploration | undefined;

function firstOf<T, R>(all: readonly T[], find: (one: T) => R | undefined): R | undefined {
  for (const one of all) {
    const found = find(one);
    if (found !== undefined) return found;
  }
  return undefined;
}

function isOpenWay({ path }: End): boolean {
  return path.some(({ outcome }) => outcome.why === 'open');
}

function isSure({ outcome: { why } }: Move): boolean {
  return why === 'certain' || why === 'either' || why === 'open';
}

/** A machine that comes to this end, looked for at the values behind the readings that decide on the way to it. */
function nameOne(end: End, corners: Explored['corners'], on: OnSpecimen): readonly [Specimen, End] | undefined {
  const onWay = end.path.flatMap(move => (isSure(move) ? [] : (corners.get(move) ?? [])));
  const specimens = [nominalSpecimen, ...parts.flatMap(part => onWay.map(values => specimenAt(values, part)))];
  const seen = new Set<string>();
  for (const specimen of specimens) {
    if (seen.has(specimen.key)) continue;
    seen.add(specimen.key);
    const own = on(specimen)?.ends.find(other => isSameEnd(other, end) && (isOpenWay(end) || !isOpenWay(other)));
    if (own) return [specimen, own];
  }
  return undefined;
}

/** At the ends first, then on the way to them. */
const parts = [1, 0.5, 0.75, 0.25];

function isSameEnd(a: End, b: End): boolean {
  if (a.kind !== b.kind) return false;
  if (isRound(a) || isRound(b)) return isRound(a) && isRound(b);
  return a.kind === 'ending' && b.kind === 'ending' ? a.name === b.name : 'at' in a && 'at' in b && a.at === b.at;
}

/** Which place of a ring is told depends on where one comes from. */
function isRound(end: End): boolean {
  return end.kind === 'stuck' && end.why === goesRound;
}
