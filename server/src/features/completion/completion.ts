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
  const { text } = view.tree;
  const fitting = [...once.values()].filter(({ label, replace }) => fits(label, text.slice(replace.start, offset)));
  // A word that is written out needs no list that holds only itself.
  if (fitting.length === 1 && fitting[0].insert === text.slice(fitting[0].replace.start, fitting[0].replace.end))
    return [];
  return [...once.values()].sort((a, b) => Number(b.first ?? false) - Number(a.first ?? false));
}

/** Whether the editor would still show it: what is typed stands in the label, in this order, though not without gaps. */
function fits(label: string, typed: string): boolean {
  let at = 0;
  for (const character of label.toLowerCase()) {
    if (character === typed[at]?.toLowerCase()) at++;
  }
  return at === typed.length;
}
