import type { Edit, Fix } from '../base/finding.ts';
import type { Place } from '../base/place.ts';
import { formatDerived } from '../base/quantity/derived-limit.ts';
import type { Declared } from '../model/common.ts';
import type { Action, StepData } from '../model/step.ts';
import { type Entry, find, type MapNode, type Node } from '../syntax/tree.ts';

/** Adds an answer without a target behind the last branch of a step. */
export function addBranch(step: Declared, data: StepData, key: string): readonly Fix[] {
  const then = mapWith(step.entry.value, data);
  const last = then?.entries.at(-1);
  if (!then || !last) return [];
  return [{ title: `Add \`${key}\``, edits: [addEntry(step.place.uri, then, last, `${key}:`)] }];
}

/** Adds `KEY: VALUE` to the map of a step or an ending, behind its last entry. */
export function addKey(thing: Declared, key: string, value: string): readonly Fix[] {
  const map = thing.entry.value;
  const last = map.kind === 'map' ? map.entries.at(-1) : undefined;
  if (map.kind !== 'map' || !last || last.value.span.unit !== map.span.unit) return [];
  const text = `${key}: ${value}`;
  return [{ title: `Add \`${text}\``, edits: [addEntry(thing.place.uri, map, last, text)] }];
}

/** Writes the value of a key that is there without one, or adds both. */
export function fillKey(thing: Declared, key: string, value: string): readonly Fix[] {
  const entry = find(thing.entry.value, key);
  if (!entry) return addKey(thing, key, value);
  const { unit, end } = entry.key.span;
  const colon = /^\s*:/.exec(unit.text.slice(end))?.[0];
  if (entry.value.kind !== 'empty' || colon === undefined) return [];
  const title = `Add \`${key}: ${value}\``;
  return [{ title, edits: [{ place: at(thing.place.uri, unit, end + colon.length), text: ` ${value}` }] }];
}

/** Leaves limits to the circuit. */
export function deriveLimits(place: Place): readonly Fix[] {
  return [{ title: 'Derive the limits from the circuit', edits: [{ place, text: formatDerived(0) }] }];
}

/** Gives a measuring step the limits that the circuit knows. */
export function addDerivedLimits(step: Declared, { verb }: Action): readonly Fix[] {
  return verb === 'measure' ? addKey(step, 'limits', formatDerived(0)) : [];
}

/** Takes one item out of a list of several, in brackets or line by line; not where a comment would go with it. */
export function takeOut(item: Place, all: readonly Place[], title: string): readonly Fix[] {
  const i = all.indexOf(item);
  const [before, after] = [all[i - 1], all[i + 1]];
  const { unit } = item.span;
  const start = before ? before.span.end : item.span.start;
  const end = before ? item.span.end : after?.span.start;
  if (end === undefined || [before, after].some(other => other && other.span.unit !== unit)) return [];
  if (unit.text.slice(start, end).includes('#')) return [];
  return [{ title, edits: [{ place: { uri: item.uri, span: { unit, start, end } }, text: '' }] }];
}

/** Writes another entry in place of the one with this value, in the step itself or in what it says by variant. */
export function replaceEntry(step: Declared, value: Place, title: string, text: string): readonly Fix[] {
  const place = withKey(step, value);
  return place === value ? [] : [{ title, edits: [{ place, text }] }];
}

/** A value with its key before it; the value alone where it stands without one. */
export function withKey(thing: Declared, value: Place): Place {
  const entry = mapsOf(thing.entry.value)
    .flatMap(map => (map.kind === 'map' ? map.entries : []))
    .find(e => e.value.span === value.span);
  const { unit, end } = value.span;
  if (!entry || entry.key.span.unit !== unit) return value;
  return { uri: value.uri, span: { unit, start: entry.key.span.start, end } };
}

/** Adds an entry beside another one of the same section, such as a step behind a step. */
export function addSibling(beside: Declared, text: (indent: string, lineBreak: string) => string): Edit | undefined {
  const { unit, start } = beside.entry.key.span;
  const indent = indentOf(beside.entry);
  // A section in braces on one line has no place for an entry of its own lines.
  if (indent === undefined || start !== beside.entry.span.start) return undefined;
  const lineBreak = unit.text.includes('\r\n') ? '\r\n' : '\n';
  const end = endOf(beside.entry);
  return { place: at(beside.place.uri, unit, end), text: `${lineBreak}${text(indent, lineBreak)}` };
}

/** `{ … }` on one line goes on with a comma, lines go on with a line. */
function addEntry(uri: string, map: MapNode, last: Entry, text: string): Edit {
  const { unit } = last.span;
  const end = endOf(last);
  const indent = indentOf(last);
  const inBraces = indent === undefined || unit.text[map.span.start] === '{';
  const lineBreak = unit.text.includes('\r\n') ? '\r\n' : '\n';
  return { place: at(uri, unit, end), text: inBraces ? `, ${text}` : `${lineBreak}${indent}${text}` };
}

function at(uri: string, unit: Place['span']['unit'], offset: number): Place {
  return { uri, span: { unit, start: offset, end: offset } };
}

/** Behind the value, without a comment that may follow it on the line. */
function endOf(entry: Entry): number {
  const { value, span } = entry;
  return value.span.unit === span.unit ? Math.max(span.end, value.span.end) : span.end;
}

/** The blanks before an entry that begins its line; undefined for one that stands behind something else. */
function indentOf({ key }: Entry): string | undefined {
  const { unit, start } = key.span;
  const before = unit.text.slice(unit.text.lastIndexOf('\n', start - 1) + 1, start);
  return /^ *$/.test(before) ? before : undefined;
}

/** The `then` from which these branches were read: the step's own, or that of a variant. */
function mapWith(step: Node, data: StepData): MapNode | undefined {
  for (const map of mapsOf(step)) {
    const then = find(map, 'then');
    if (then?.value.kind === 'map' && then.key.span === data.thenPlace?.span) return then.value;
  }
  return undefined;
}

/** What a step says, and what it says by variant. */
function mapsOf(step: Node): readonly Node[] {
  const variants = find(step, 'by variant')?.value;
  return [step, ...(variants?.kind === 'map' ? variants.entries.map(e => e.value) : [])];
}
