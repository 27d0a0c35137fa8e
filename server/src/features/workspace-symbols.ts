import { type OutlineItem, outline } from './outline.ts';
import type { Location, Project } from './project.ts';

export interface NamedPlace extends Location {
  readonly name: string;
  readonly kind: OutlineItem['kind'];
  /** What it belongs to, or what kind of file it stands in. */
  readonly container: string;
}

/** So many are enough to choose from; whoever wants another one types on. */
const most = 200;

/** Everything with a name that holds the letters of `query` in this order, whatever the case. */
export function workspaceSymbols(project: Project, query: string): NamedPlace[] {
  const found: NamedPlace[] = [];
  for (const uri of [...project.uris()].sort()) {
    const view = project.view(uri);
    if (!view) continue;
    for (const place of placesIn(uri, outline(view))) {
      if (isMeantBy(query, place.name)) found.push(place);
      if (found.length === most) return found;
    }
  }
  return found;
}

function placesIn(uri: string, items: readonly OutlineItem[], container = ''): NamedPlace[] {
  return items.flatMap(({ name, kind, selection, children }) => [
    ...(kind === 'section' ? [] : [{ uri, ...selection, name, kind, container }]),
    ...placesIn(uri, children, name),
  ]);
}

function isMeantBy(query: string, name: string): boolean {
  const letters = name.toLowerCase();
  let at = 0;
  for (const letter of query.toLowerCase().replace(/\s/g, '')) {
    at = letters.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
