import type { FileView } from '../analysis/view.ts';
import { namesAt, namesIn, occurrencesOf, stretchOf } from './names/names-in.ts';
import { keyOf, type Occurrence, type Thing, type ThingKind } from './names/thing.ts';
import { locate, type Project, type Replacement, type Stretch } from './project.ts';
import { distinct } from './references.ts';

/** Either the result, or a sentence that says why there is none. */
export type Renamed<T> =
  | { readonly value: T; readonly refused?: undefined }
  | { readonly value?: undefined; readonly refused: string };

/** The name that would be changed at this offset. */
export function prepareRename(project: Project, view: FileView, offset: number): Renamed<Stretch & { name: string }> {
  const [first] = namesAt(view, offset);
  if (!first) return { refused: 'There is no name here that could be changed' };
  const { name, kind, owner } = first.thing;
  if (!allOccurrences(project, first.thing).some(occurrence => occurrence.declares))
    return {
      refused: `\`${name}\` belongs to ${owner ? `the kind of \`${owner}\`` : `every ${kind}`} and keeps its name`,
    };
  return { value: { ...stretchOf(view, first), name } };
}

/** Changes a name wherever it stands, in every file. The pieces of a point are changed one by one, so quotes around it stay. */
export function rename(project: Project, view: FileView, offset: number, to: string): Renamed<Replacement[]> {
  const prepared = prepareRename(project, view, offset);
  if (prepared.refused !== undefined) return { refused: prepared.refused };
  const { thing } = namesAt(view, offset)[0];
  const all = allOccurrences(project, thing);
  const refused = objectionTo(to, thing.kind) ?? taken(project, all, to);
  if (refused !== undefined) return { refused };
  const places = distinct(all.flatMap(({ place }) => locate(project, place) ?? []));
  return { value: places.map(place => ({ ...place, text: to })) };
}

/**
 * A procedure for two systems names a thing of each with one word. Whoever changes the word changes both, so that the
 * procedure goes on to fit both.
 */
function allOccurrences(project: Project, thing: Thing): Occurrence[] {
  const things = new Map([[keyOf(thing), thing]]);
  const found: Occurrence[] = [];
  for (const one of things.values()) {
    for (const occurrence of occurrencesOf(project, one)) {
      found.push(occurrence);
      for (const other of alike(project, occurrence)) things.set(keyOf(other), other);
    }
  }
  return found;
}

function alike(project: Project, { place, thing }: Occurrence): Thing[] {
  const view = project.view(place.uri);
  if (!view) return [];
  return namesIn(view)
    .filter(other => other.place.span.unit === place.span.unit && other.place.span.start === place.span.start)
    .map(other => other.thing)
    .filter(other => other.name === thing.name);
}

/** Why a text cannot be a name; the signs are those that end a name in a list, a wire or a point. */
function objectionTo(name: string, kind: ThingKind): string | undefined {
  if (name.trim() === '') return 'A name needs at least one character';
  if (name !== name.trim()) return 'A name has no blanks at its ends';
  const sign = /[:#,{}[\]()"'`\r\n\t]/.exec(name)?.[0];
  if (sign) return `A name holds no ${/\s/.test(sign) ? 'tabs and line breaks' : `\`${sign}\``}`;
  const first = /^[-?&*!|>%@~<=]/.exec(name)?.[0];
  if (first) return `A name does not begin with \`${first}\``;
  if (kind === 'variant' && name === 'all') return 'The word `all` stands for every variant';
  const word = / (to|through|beside|only) /.exec(name)?.[1];
  return word && inWires.includes(kind) ? `A name in a wire does not hold the word \`${word}\`` : undefined;
}

const inWires: readonly ThingKind[] = [
  'part',
  'terminal',
  'connector',
  'cavity',
  'ground',
  'splice',
  'wire',
  'variant',
];

/** Kinds whose names must differ from each other. */
const together: readonly (readonly ThingKind[])[] = [
  ['part', 'connector', 'ground', 'splice', 'wire', 'condition'],
  ['step', 'ending'],
];

function taken(project: Project, all: readonly Occurrence[], name: string): string | undefined {
  for (const { thing } of all.filter(occurrence => occurrence.declares)) {
    const kinds = together.find(group => group.includes(thing.kind)) ?? [thing.kind];
    const view = project.view(thing.uri);
    const other =
      view &&
      namesIn(view).find(
        one =>
          one.declares && one.thing.name === name && one.thing.owner === thing.owner && kinds.includes(one.thing.kind),
      );
    if (other && name !== thing.name) return `There is already a ${other.thing.kind} \`${name}\``;
  }
  return undefined;
}
