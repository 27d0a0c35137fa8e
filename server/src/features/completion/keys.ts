import type { FileView } from '../../analysis/view.ts';
import { chosenMaps } from '../../schema/choose.ts';
import { keysOf } from '../../schema/place.ts';
import type { EntrySnippet, MapShape } from '../../schema/shape.ts';
import type { Project } from '../project.ts';
import { branchKeys } from './branch-keys.ts';
import { type Candidate, plain } from './candidate.ts';
import { namesOf } from './names.ts';
import { sceneAt } from './scene.ts';
import type { Spot } from './spot.ts';

/** Keys that are not there yet, names that can be keys, and whole entries. */
export function keysAt(project: Project, view: FileView, spot: Spot): Candidate[] {
  const { shape, map, replace, prefix, hasColon, inBrackets } = spot;
  const current = map.entries.find(
    entry => view.tree.absolute(entry.key.span).start === replace.start && replace.end > replace.start,
  );
  const there = new Set(map.entries.filter(entry => entry !== current).map(entry => entry.key.text));
  const chosen = chosenMaps(shape, map);
  const maps = chosen.length > 0 ? chosen : shape.maps;
  const scene = sceneAt(project, view, spot.trail);

  const known = keysOf(shape, map)
    .filter(({ key }) => !there.has(key))
    .map(({ key, description, required, snippet }): Candidate => {
      const behind = hasColon ? '' : withColon(onOneLine(snippet, inBrackets));
      return {
        label: key,
        kind: 'key',
        ...(required && { detail: 'required', first: true }),
        insert: `${prefix}${plain(key)}${behind}`,
        isSnippet: true,
        replace,
        documentation: () => description,
      };
    });

  const words = [
    ...maps.flatMap(one => one.keyNames.flatMap(kind => namesOf(kind, scene))),
    ...branchKeys(maps, scene),
  ];
  const named = words
    .filter(({ text }) => !there.has(text))
    .map(
      ({ text, detail, documentation }): Candidate => ({
        label: text,
        kind: 'name',
        ...(detail && { detail }),
        insert: hasColon ? `${prefix}${text}` : `${prefix}${plain(text)}: $0`,
        isSnippet: !hasColon,
        replace,
        ...(documentation && { documentation }),
      }),
    );

  const entries = hasColon ? [] : entriesFor(spot, maps).map(entry => template(entry, spot));
  return [...known, ...named, ...entries.filter(({ insert }) => !inBrackets || !insert.includes('\n'))];
}

function entriesFor({ shape, map, ownEntries }: Spot, maps: readonly MapShape[]): EntrySnippet[] {
  // What a whole item is made of no longer fits once the item has begun.
  const own = ownEntries && map.entries.length === 0 ? shape.entries : [];
  return [...maps.flatMap(one => one.others?.entries ?? []), ...own];
}

function template({ label, description, body }: EntrySnippet, { prefix, replace }: Spot): Candidate {
  // Below a dash the lines that follow stand two columns further in.
  const text = prefix === '- ' || prefix === ' ' ? body.replaceAll('\n', '\n  ') : body;
  return {
    label,
    kind: 'template',
    detail: 'whole entry',
    insert: prefix + text,
    isSnippet: true,
    replace,
    documentation: () => description,
  };
}

function withColon(value: string): string {
  return value.startsWith('\n') ? `:${value}` : `: ${value}`;
}

export function onOneLine(snippet: string, inBrackets: boolean): string {
  return inBrackets && snippet.includes('\n') ? '$1' : snippet;
}
