import type { Effect } from '../analysis/effect.ts';
import type { Circuit } from '../analysis/electrical.ts';
import { effectOf, together } from '../analysis/faults/effect-of.ts';
import type { Fault } from '../analysis/faults/fault.ts';
import { type Specimen, specimenEffect } from '../analysis/specimen.ts';
import type { Nature } from '../model/procedure.ts';
import type { Course } from '../walk/walk.ts';

/** What a procedure is tried on: a machine with one fault or none, which stays or comes and goes, of all tolerances or of one specimen. */
export interface Patient {
  readonly course: Course;
  readonly circuit: Circuit;
  /** All faults of the machine, by which names in the procedure are told. */
  readonly all: readonly Fault[];
  /** Absent: nothing is wrong. Two for a double fault. */
  readonly faults: readonly Fault[];
  readonly nature: Nature;
  /** Absent: every machine inside the tolerances. */
  readonly specimen?: Specimen;
  /** The machine as it is in a moment: with its fault or without, with fuses that have gone. */
  effect(isPresent: boolean, blown: readonly string[]): Effect | undefined;
}

export function makePatient(
  course: Course,
  circuit: Circuit,
  all: readonly Fault[],
  faults: readonly Fault[],
  nature: Nature,
  specimen?: Specimen,
): Patient {
  const known = new Map<string, Effect | undefined>();
  // A patient whose walk is known is never looked into.
  let own: readonly Effect[] | undefined;
  const make = (isPresent: boolean, blown: readonly string[]): Effect | undefined => {
    own ??= faults.map(effectOf).filter(({ key }) => key !== '');
    const parts = [
      ...(isPresent ? own : []),
      ...blown.flatMap(name => openEffect(all, name)),
      ...(specimen ? [specimenEffect(specimen)] : []),
    ];
    return parts.length < 2 ? parts[0] : together(parts);
  };
  const effect = (isPresent: boolean, blown: readonly string[]) => {
    const key = `${isPresent}${blown.join()}`;
    if (!known.has(key)) known.set(key, make(isPresent, blown));
    return known.get(key);
  };
  return { course, circuit, all, faults, nature, specimen, effect };
}

/** The same fault on one specimen. */
export function onSpecimen({ course, circuit, all, faults, nature }: Patient, specimen: Specimen): Patient {
  return makePatient(course, circuit, all, faults, nature, specimen);
}

/** What is left when the fault is mended. */
export function mended({ course, circuit, all, nature, specimen }: Patient): Patient {
  return makePatient(course, circuit, all, [], nature, specimen);
}

/** A fuse or breaker that has gone stays open: the same as its own fault. */
function openEffect(all: readonly Fault[], name: string): readonly Effect[] {
  const fault = all.find(({ owner, kind }) => owner === name && (kind === 'blown' || kind === 'tripped'));
  return fault ? [effectOf(fault)] : [];
}
