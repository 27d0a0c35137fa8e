import type { Entry, Node, SyntaxTree } from '../syntax/tree.ts';
import type { Stretch } from './project.ts';

/** A stretch that can be folded away but for its first line. */
export interface Fold extends Stretch {
  readonly kind: 'region' | 'comment';
}

/** Every entry and item over several lines, and every run of comment lines. */
export function foldingRanges(tree: SyntaxTree): Fold[] {
  const folds: Fold[] = [];
  const visit = (node: Node, whole?: Entry): void => {
    const { start, end } = tree.absolute(whole?.span ?? node.span);
    if (node.kind !== 'empty' && spansLines(tree.text, start, end)) folds.push({ start, end, kind: 'region' });
    if (node.kind === 'map') for (const entry of node.entries) visit(entry.value, entry);
    if (node.kind === 'list') for (const item of node.items) visit(item);
  };
  if (tree.root.kind === 'map') for (const entry of tree.root.entries) visit(entry.value, entry);
  return [...withoutDoubles(folds, tree.text), ...commentBlocks(tree.text)];
}

function spansLines(text: string, start: number, end: number): boolean {
  return /[\r\n]/.test(text.slice(start, end));
}

/** An item and the map in it begin on one line, where only the outer of them can be folded. */
function withoutDoubles(folds: readonly Fold[], text: string): Fold[] {
  const seen = new Set<number>();
  return folds.filter(({ start }) => {
    const line = startOfLine(text, start);
    return !seen.has(line) && seen.add(line);
  });
}

/** Looks back along the line only, as this is asked for every fold of a long file. */
function startOfLine(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text[at - 1] !== '\n' && text[at - 1] !== '\r') at--;
  return at;
}

function commentBlocks(text: string): Fold[] {
  const found = text.matchAll(/^[ \t]*#[^\r\n]*(?:(?:\r\n|\r|\n)[ \t]*#[^\r\n]*)+/gm);
  return [...found].map(({ 0: block, index }) => ({ start: index, end: index + block.length, kind: 'comment' }));
}
