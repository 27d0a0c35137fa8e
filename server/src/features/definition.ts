import type { FileView } from '../analysis/view.ts';
import { documentLinks } from './links.ts';
import { namesAt, namesIn, stretchOf } from './names/names-in.ts';
import { keyOf, type Thing } from './names/thing.ts';
import { type Location, type Project, touches } from './project.ts';

/** Where the name at the offset is declared: one place for each system that has a thing of that name. */
export function definition(project: Project, view: FileView, offset: number): Location[] {
  const link = documentLinks(view).find(found => touches(found, offset));
  if (link) return [{ uri: link.target, start: 0, end: 0 }];
  return namesAt(view, offset).flatMap(({ thing }) => declarationsOf(project, thing));
}

export function declarationsOf(project: Project, thing: Thing): Location[] {
  const view = project.view(thing.uri);
  if (!view) return [];
  const declared = (key: string) =>
    namesIn(view)
      .filter(occurrence => occurrence.declares && keyOf(occurrence.thing) === key)
      .map(occurrence => ({ uri: thing.uri, ...stretchOf(view, occurrence) }));
  const own = declared(keyOf(thing));
  // Terminals that belong to a kind of part are written nowhere; the part itself is shown.
  const { owner, kind, uri } = thing;
  return own.length > 0 || kind !== 'terminal' || !owner ? own : declared(keyOf({ kind: 'part', name: owner, uri }));
}
