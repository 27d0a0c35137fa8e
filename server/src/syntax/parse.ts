import type { Unit } from '../base/span.ts';
import { assemble } from './assemble.ts';
import { FileTree } from './file-tree.ts';
import { keep, type Part } from './parts.ts';
import type { SyntaxProblem } from './problems.ts';
import type { EmptyNode, Span, SyntaxTree, TextRange } from './tree.ts';
import { type Piece, split } from './units.ts';
import { type Obstacle, obstacle } from './unreadable.ts';

/**
 * Reads a text; nothing in it makes this throw. Units whose text is the same as in `previous` are taken over as they are, with
 * their nodes, so the work after an edit is that of the unit it touches, and what was derived from other nodes stays valid.
 */
export function parse(text: string, previous?: SyntaxTree): SyntaxTree {
  const old = previous instanceof FileTree ? previous : undefined;
  if (old?.text === text) return old;
  const reason = obstacle(text);
  if (reason) return unreadable(text, reason);
  const source = asRead(text);
  const pieces: readonly Piece[] = sharesValues(source)
    ? [{ form: 'whole', start: 0, end: source.length }]
    : split(source);
  const parts = keep(pieces, source, old?.units ?? []);
  const { root, problems } = assemble(parts, old?.root);
  return new FileTree(text, root, parts, [...ownProblems(parts), ...problems]);
}

/** The text with a line feed in place of a byte order mark and of each lone carriage return, so that offsets stay true. */
function asRead(text: string): string {
  const unmarked = text.startsWith('\uFEFF') ? `\n${text.slice(1)}` : text;
  return unmarked.includes('\r') ? unmarked.replace(/\r(?!\n)/g, '\n') : unmarked;
}

/** The problems of each unit; a bracket that closes nothing is no news where the one it belongs to stayed open further up. */
function ownProblems(parts: readonly Part[]): SyntaxProblem[] {
  const problems: SyntaxProblem[] = [];
  let open = false;
  for (const problem of parts.flatMap(part => part.content.problems)) {
    if (problem.id !== 'stray-bracket' || !open) problems.push(problem);
    open = problem.id === 'unclosed-bracket' || (open && problem.id !== 'stray-bracket');
  }
  return problems;
}

function unreadable(text: string, { related, start, end, ...rest }: Obstacle): SyntaxTree {
  const unit: Unit = { text };
  const span = (range: TextRange): Span => ({ unit, start: range.start, end: range.end });
  const root: EmptyNode = { kind: 'empty', span: span({ start: 0, end: 0 }) };
  const content = { entries: [], items: [], problems: [] };
  const places = related?.map(place => ({ span: span(place), message: place.message }));
  const problem = { ...rest, span: span({ start, end }), ...(places && { related: places }) };
  return new FileTree(text, root, [{ unit, base: 0, form: 'whole', content }], [problem], false);
}

/** Whether an alias may refer to an anchor: such a text cannot be read in pieces. */
function sharesValues(text: string): boolean {
  if (!text.includes('&')) return false;
  const anchors = new Set(Array.from(text.matchAll(/(?:^|[\s[{,:-])&([^\s,[\]{}]+)/g), ([, name]) => name));
  if (anchors.size > 0) for (const [, name] of text.matchAll(/\*([^\s,[\]{}]+)/g)) if (anchors.has(name)) return true;
  return false;
}
