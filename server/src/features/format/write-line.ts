import type { Placed } from './indentation.ts';
import type { Line } from './lines.ts';
import type { Token } from './tokens.ts';

/** The line in the normal form: one blank behind colons, commas and dashes, none at the end. */
export function writeLine(line: Line, placed: Placed): string {
  let text = ' '.repeat(line.tokens.length > 0 ? placed.indent : 0);
  let last: Token | undefined;
  for (const token of line.tokens) {
    if (token.kind === 'comment' && last) text = `${text} `.padEnd(token.start - line.start);
    else if (last && needsBlank(last, token)) text += ' ';
    text += token.kind === 'text' ? reindented(token.text, placed) : token.text;
    last = token;
  }
  return text;
}

function needsBlank(left: Token, right: Token): boolean {
  if (right.kind === 'mark' && (right.text === ':' || right.text === ',')) return isMark(left, ':');
  if (isMark(left, '[') || isMark(right, ']')) return false;
  return !(isMark(left, '{') && isMark(right, '}'));
}

function isMark({ kind, text }: Token, sign: string): boolean {
  return kind === 'mark' && text === sign;
}

/** A text over several lines, moved as a whole. */
function reindented(text: string, placed: Placed): string {
  const [first, ...others] = text.split(/\r\n|\r|\n/);
  if (others.length === 0) return text;
  const lineBreak = /\r\n|\r|\n/.exec(text)![0];
  const isBlockText = /^[|>]/.test(first);
  const lines = isBlockText
    ? blockLines(first, others, placed)
    : others.map(line => (line.trim() === '' ? '' : ' '.repeat(placed.inner + 2) + line.trim()));
  return [first.trimEnd(), ...lines].join(lineBreak);
}

/** Behind `|` and `>` every blank beyond the indentation belongs to the text. */
function blockLines(header: string, lines: readonly string[], { inner, innerBefore }: Placed): string[] {
  const isSaid = /^[|>][-+]?\d/.test(header);
  const opening = lines.find(line => line.trim() !== '') ?? '';
  const before = indentOf(opening);
  const by = isSaid ? inner - innerBefore : inner + 2 - before;
  return lines.map(line => {
    if (line.trim() === '' && line.length <= before) return '';
    return ' '.repeat(Math.max(0, indentOf(line) + by)) + line.trimStart();
  });
}

function indentOf(line: string): number {
  return line.length - line.trimStart().length;
}
