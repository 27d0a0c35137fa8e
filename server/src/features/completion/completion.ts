import type { FileView } from '../../analysis/view.ts';
import type { Project } from '../project.ts';
import type { Candidate } from './candidate.ts';
import { keysAt } from './keys.ts';
import { spotsAt } from './spot.ts';
import { valuesAt } from './values.ts';

/** What could be written at the offset, in the order in which it should be offered. */
export function completion(project: Project, view: FileView, offset: number): Candidate[] {
  const all = spotsAt(view, offset).flatMap(spot =>
    spot.wants === 'key' ? keysAt(project, view, spot) : valuesAt(project, view, spot),
  );
  const once = new Map<string, Candidate>();
  for (const candidate of all) {
    const key = `${candidate.kind === 'template' ? 'template ' : ''}${candidate.label}`;
    if (!once.has(key)) once.set(key, candidate);
  }
  return [...once.values()].sort((a, b) => Number(b.first ?? false) - Number(a.first ?? false));
}
