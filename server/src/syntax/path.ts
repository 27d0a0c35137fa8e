import type { Entry, ListNode, Node, SyntaxTree, TextRange } from './tree.ts';

/** One step on the way from the root to an offset. */
export interface PathItem {
  readonly node: Node;
  /** The entry whose key or value `node` is. */
  readonly entry?: Entry;
  /** The number of `node` in the list before it. */
  readonly index?: number;
}

/**
 * The nodes from the root to the offset, the deepest last; for completion and hover. The last node is a key (`entry.key === node`)
 * when the offset touches one. On a blank line, and behind the last character of a value, the indentation decides what the
 * offset belongs to, as it will once the author goes on typing there.
 */
export function pathAt(tree: SyntaxTree, offset: number): readonly PathItem[] {
  const place: Place = { tree, offset, ...lineOf(tree.text, offset) };
  const path: PathItem[] = [{ node: tree.root }];
  for (let next = step(place, tree.root); next; next = step(place, next.node)) path.push(next);
  return path;
}

interface Place {
  readonly tree: SyntaxTree;
  readonly offset: number;
  /** Offset at which the line of the offset begins. */
  readonly lineStart: number;
  /** Blanks at the beginning of the line, as far as the offset. */
  readonly indent: number;
}

function lineOf(text: string, offset: number): { readonly lineStart: number; readonly indent: number } {
  const lineStart = startOfLine(text, offset);
  let at = lineStart;
  while (at < offset && text[at] === ' ') at++;
  return { lineStart, indent: at - lineStart };
}

function startOfLine(text: string, offset: number): number {
  return Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
}

function step(place: Place, node: Node): PathItem | undefined {
  if (node.kind === 'map') return inMap(place, node.entries, isInBrackets(place, node));
  if (node.kind === 'list') return inList(place, node, isInBrackets(place, node));
  return undefined;
}

function inMap(place: Place, entries: readonly Entry[], brackets: boolean): PathItem | undefined {
  const { tree, offset } = place;
  const entry = lastBefore(place, entries);
  if (!entry) return undefined;
  const own = tree.absolute(entry.span);
  const key = tree.absolute(entry.key.span);
  if (offset <= key.end) return { node: entry.key, entry };
  if (!reaches(place, own, brackets)) return undefined;
  const value = tree.absolute(entry.value.span);
  const elsewhere = value.start < own.start || value.end > own.end;
  return elsewhere && offset > own.end ? undefined : { node: entry.value, entry };
}

function inList(place: Place, { items, span }: ListNode, brackets: boolean): PathItem | undefined {
  const node = lastBefore(place, items);
  if (!node) return undefined;
  // An item begins with its dash, in the column of the first one.
  const dash = place.tree.absolute(span).start;
  if (!reaches(place, place.tree.absolute(node.span), brackets, dash)) return undefined;
  return { node, index: items.indexOf(node) };
}

/** The last of them that begins before the offset or at it; they stand in the order of the text, but for what aliases bring in. */
function lastBefore<T extends { readonly span: Entry['span'] }>(
  { tree, offset }: Place,
  all: readonly T[],
): T | undefined {
  return all.findLast(({ span }) => tree.absolute(span).start <= offset);
}

/** Whether the offset belongs to something that begins before it: inside it, behind it on its line, or indented below it. */
function reaches(place: Place, { start, end }: TextRange, brackets: boolean, columnOf = start): boolean {
  const { tree, offset, lineStart, indent } = place;
  if (offset <= end) return true;
  if (brackets) return false;
  return lineStart <= end || indent > columnOf - startOfLine(tree.text, columnOf);
}

function isInBrackets({ tree }: Place, { span }: Node): boolean {
  const first = tree.text[tree.absolute(span).start];
  return first === '{' || first === '[';
}
