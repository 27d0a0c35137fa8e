import type { FileView } from '../analysis/view.ts';
import type { Edit } from '../base/finding.ts';
import type { Place } from '../base/place.ts';

/** The files that a feature may look at. */
export interface Project {
  view(uri: string): FileView | undefined;
  uris(): readonly string[];
  /** Files whose meaning changes with this one. */
  dependents(uri: string): readonly string[];
}

/** From one offset of a file to another, in UTF-16 code units. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** A stretch of a named file. */
export interface Location extends Stretch {
  readonly uri: string;
}

/** A stretch that is to be replaced by a text. */
export interface Replacement extends Location {
  readonly text: string;
}

/** Where a place stands now; undefined when its file is gone. */
export function locate(project: Project, { uri, span }: Place): Location | undefined {
  const view = project.view(uri);
  return view && { uri, ...view.tree.absolute(span) };
}

export function locateEdit(project: Project, { place, text }: Edit): Replacement | undefined {
  const location = locate(project, place);
  return location && { ...location, text };
}

/** True also right behind the last character, where a cursor stands after a word was typed. */
export function touches({ start, end }: Stretch, offset: number): boolean {
  return start <= offset && offset <= end;
}
