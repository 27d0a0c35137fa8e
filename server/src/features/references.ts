import type { FileView } from '../analysis/view.ts';
import { namesAt, namesIn, occurrencesOf, stretchOf } from './names/names-in.ts';
import { keyOf, type Thing } from './names/thing.ts';
import { type Location, locate, type Project, type Stretch } from './project.ts';

/** Every place that names what is named at the offset, in all files. */
export function references(project: Project, view: FileView, offset: number, withDeclaration: boolean): Location[] {
  return distinct(namesAt(view, offset).flatMap(({ thing }) => placesOf(project, thing, withDeclaration)));
}

export function placesOf(project: Project, thing: Thing, withDeclaration: boolean): Location[] {
  return occurrencesOf(project, thing)
    .filter(occurrence => withDeclaration || !occurrence.declares)
    .flatMap(({ place }) => locate(project, place) ?? []);
}

export interface Highlight extends Stretch {
  readonly declares: boolean;
}

/** The same within the file alone. */
export function highlights(view: FileView, offset: number): Highlight[] {
  const keys = new Set(namesAt(view, offset).map(({ thing }) => keyOf(thing)));
  return namesIn(view)
    .filter(({ thing }) => keys.has(keyOf(thing)))
    .map(occurrence => ({ ...stretchOf(view, occurrence), declares: occurrence.declares }));
}

export function distinct(locations: readonly Location[]): Location[] {
  return [...new Map(locations.map(place => [`${place.uri} ${place.start} ${place.end}`, place])).values()];
}
