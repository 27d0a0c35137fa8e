import type { ProcedureView } from '../../analysis/view.ts';
import type { Procedure, Start } from '../../model/procedure.ts';
import type { SampleWalk } from '../../model/samples.ts';
import type { Option } from '../../protocol/preview.ts';
import { type Course, coursesOf, entryNamed } from '../../walk/walk.ts';

/** One variant of one system: the one that is asked for, else that of the sample walk, else the first. */
export function courseNamed(view: ProcedureView, id: string | undefined, sample: SampleWalk | undefined): Course {
  const courses = coursesOf(view);
  const ofSample = courses.find(one => one.variant === sample?.variant?.text);
  return courses.find(one => idOf(one) === id) ?? ofSample ?? courses[0]!;
}

export function idOf({ of, variant }: Course): string {
  return of ? `${of.view.uri}#${variant}` : variant;
}

export function variantOptions(view: ProcedureView, chosen: Course): Option[] {
  const courses = coursesOf(view);
  const severalSystems = new Set(courses.map(one => one.system)).size > 1;
  const label = ({ system, variant }: Course) => {
    const title =
      system?.variantDecls.get(variant)?.title ?? (courses.length === 1 ? system?.title : undefined) ?? variant;
    return severalSystems ? `${system?.title ?? ''}: ${title}` : title;
  };
  return courses.map(one => ({ id: idOf(one), label: label(one), chosen: idOf(one) === idOf(chosen) }));
}

/** The way in that is asked for, else that of the sample walk, else the first. */
export function wayIn(procedure: Procedure, id: string | undefined, sample: SampleWalk | undefined): Start | undefined {
  return entryNamed(procedure, id ?? sample?.startsFrom?.text) ?? procedure.entries[0];
}

/** Each symptom and code; and the step, where the walk begins at one instead. */
export function startOptions({ entries }: Procedure, chosen: Start | undefined, step: string | undefined): Option[] {
  const options = entries.flatMap(entry => {
    const text = textOf(entry);
    if (text === undefined) return [];
    const label = entry.symptom ? text : `code ${text}`;
    return [{ id: text, label, chosen: step === undefined && entry === chosen }];
  });
  return step === undefined ? options : [...options, { id: '', label: `step ${step}`, chosen: true }];
}

export function textOf(entry: Start | undefined): string | undefined {
  return entry?.symptom?.text ?? entry?.code?.text;
}
