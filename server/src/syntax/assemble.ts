import { repeatedEntries } from './duplicates.ts';
import type { Part } from './parts.ts';
import { quoted, type SyntaxProblem } from './problems.ts';
import type { Entry, ListNode, MapNode, Node, Span } from './tree.ts';

/**
 * Puts what was read from the units together: the top map, and the maps and lists whose entries are units of their own. A node
 * of the version before is kept where nothing in it has changed.
 */
export function assemble(
  parts: readonly Part[],
  before: Node | undefined,
): { readonly root: Node; readonly problems: SyntaxProblem[] } {
  const whole = parts.find(part => part.form === 'whole');
  if (whole) return { root: whole.content.root ?? empty(whole), problems: [] };
  const known = new Map(before?.kind === 'map' ? before.entries.map(entry => [entry.key, entry]) : []);
  // What stands in a damaged unit may not be what its author means.
  const damaged = new Set(parts.filter(part => part.content.problems.length > 0).map(part => part.unit));
  const isSound = (entry: Entry) => !damaged.has(entry.key.span.unit);
  const problems: SyntaxProblem[] = [];
  const entries: Placed<Entry>[] = [];
  for (let i = 0; i < parts.length; i++) {
    const part = parts[i]!;
    if (part.form !== 'head') {
      for (const entry of part.content.entries) entries.push({ what: entry, base: part.base });
      continue;
    }
    const from = i + 1;
    while (isChild(parts[i + 1])) i++;
    const children = parts.slice(from, i + 1);
    problems.push(...outOfLine(children));
    const entry = section(part, children, known);
    if (!entry) continue;
    if (entry.value.kind === 'map') problems.push(...repeatedEntries(entry.value.entries.filter(isSound)));
    entries.push({ what: entry, base: part.base });
  }
  const first = parts[0]!;
  if (!parts.some(part => part.form === 'entry' || part.form === 'head')) return { root: empty(first), problems };
  const root: MapNode = { kind: 'map', span: reach(first, entries), entries: entries.map(entry => entry.what) };
  problems.push(...repeatedEntries(root.entries.filter(isSound)));
  return { root: before?.kind === 'map' && sameMap(before, root) ? before : root, problems };
}

interface Placed<T> {
  readonly what: T;
  readonly base: number;
}

function isChild(part: Part | undefined): boolean {
  return part?.form === 'map child' || part?.form === 'list child';
}

/** A top-level entry whose children are units of their own; nothing where its name could not be read. */
function section(head: Part, children: readonly Part[], known: ReadonlyMap<Node, Entry>): Entry | undefined {
  const key = head.content.entries[0]?.key;
  if (!key) return undefined;
  const first = children[0]!;
  const value = first.form === 'map child' ? mapOf(children) : listOf(children);
  const shift = first.base - head.base;
  const entry: Entry = { key, value, span: { unit: head.unit, start: key.span.start, end: shift + value.span.end } };
  const before = known.get(key);
  return before && sameEntry(before, entry) ? before : entry;
}

function mapOf(children: readonly Part[]): MapNode {
  const entries = children.flatMap(part => part.content.entries.map(what => ({ what, base: part.base })));
  return { kind: 'map', span: reach(children[0]!, entries), entries: entries.map(entry => entry.what) };
}

function listOf(children: readonly Part[]): ListNode {
  const items = children.flatMap(part => part.content.items.map(what => ({ what, base: part.base })));
  return { kind: 'list', span: reach(children[0]!, items), items: items.map(item => item.what) };
}

/** Children that begin left of the first one, and are else well-formed. */
function outOfLine(children: readonly Part[]): SyntaxProblem[] {
  const column = indentOf(children[0]!);
  return children.flatMap(child => {
    const indent = indentOf(child);
    if (indent === column || child.content.problems.length > 0) return [];
    const word = /[^ ][^\s:]*/.exec(child.unit.text)!;
    return {
      id: 'bad-indentation',
      span: { unit: child.unit, start: word.index, end: word.index + word[0].length },
      message: `${quoted(word[0])} is not in line with the entries above it`,
      detail: `The first of them begins in column ${column + 1}, this one in column ${indent + 1}.`,
      help: 'indent it like the others',
    } satisfies SyntaxProblem;
  });
}

function indentOf({ unit }: Part): number {
  return unit.text.search(/[^ ]/);
}

/** From the first to the end of the last, told from the start of the first unit. */
function reach({ unit, base }: Part, placed: readonly Placed<{ readonly span: Span }>[]): Span {
  const first = placed[0];
  const last = placed.at(-1);
  if (!first || !last) return { unit, start: 0, end: 0 };
  return { unit, start: first.base - base + first.what.span.start, end: last.base - base + last.what.span.end };
}

function empty({ unit }: Part): Node {
  return { kind: 'empty', span: { unit, start: 0, end: 0 } };
}

function sameEntry(a: Entry, b: Entry): boolean {
  if (a.key !== b.key || !sameSpan(a.span, b.span)) return false;
  if (a.value.kind === 'map' && b.value.kind === 'map') return sameMap(a.value, b.value);
  if (a.value.kind === 'list' && b.value.kind === 'list')
    return sameSpan(a.value.span, b.value.span) && equal(a.value.items, b.value.items);
  return false;
}

function sameMap(a: MapNode, b: MapNode): boolean {
  return sameSpan(a.span, b.span) && equal(a.entries, b.entries);
}

function sameSpan(a: Span, b: Span): boolean {
  return a.unit === b.unit && a.start === b.start && a.end === b.end;
}

function equal<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
