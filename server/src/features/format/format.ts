import { parse } from '../../syntax/parse.ts';
import type { SyntaxTree } from '../../syntax/tree.ts';
import type { Stretch } from '../project.ts';
import { indentations } from './indentation.ts';
import { linesOf } from './lines.ts';
import { saysTheSame } from './same.ts';
import { tokensOf } from './tokens.ts';
import { writeLine } from './write-line.ts';

export interface TextEdit extends Stretch {
  readonly text: string;
}

/**
 * The edits that bring a file, or the lines of it that `within` touches, into the normal form: two blanks for each level, one
 * behind colons and commas, none at the end of a line, one line break at the end. Comments, line breaks and the texts stay.
 * A file that cannot be read without problems is left alone, and so is one that would come to say something else.
 */
export function format(tree: SyntaxTree, within: Stretch = { start: 0, end: tree.text.length }): TextEdit[] {
  if (!tree.readable || tree.problems.length > 0) return [];
  const edits = allEdits(tree).filter(({ start, end }) => start <= within.end && within.start <= end);
  if (edits.length === 0) return [];
  const after = parse(applied(tree.text, edits), tree);
  return after.problems.length === 0 && saysTheSame(tree.root, after.root) ? edits : [];
}

function allEdits(tree: SyntaxTree): TextEdit[] {
  const lines = linesOf(tree.text, tokensOf(tree));
  const placed = indentations(lines);
  const lastFull = lines.findLastIndex(line => line.tokens.length > 0);
  const usual = lines.find(line => line.break !== '')?.break ?? '\n';
  const edits = lines.slice(0, lastFull + 1).map((line, i) => ({
    start: line.start,
    end: line.end,
    text: writeLine(line, placed[i]),
  }));
  const last = lines[lastFull];
  if (last) edits.push({ start: last.end, end: tree.text.length, text: last.break || usual });
  return edits.filter(({ start, end, text }) => tree.text.slice(start, end) !== text);
}

/** The text with the edits, which stand in its order, made. */
export function applied(text: string, edits: readonly TextEdit[]): string {
  let result = '';
  let at = 0;
  for (const { start, end, text: put } of edits) {
    result += text.slice(at, start) + put;
    at = end;
  }
  return result + text.slice(at);
}
