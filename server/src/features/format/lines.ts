import type { Token } from './tokens.ts';

/** A line of a file, or several where a text goes on over their ends. */
export interface Line {
  readonly tokens: readonly Token[];
  /** From the line's first character to before its line break. */
  readonly start: number;
  readonly end: number;
  /** Its own line break; empty on the last line of a file that ends without one. */
  readonly break: string;
  /** Blanks before the first token. */
  readonly indent: number;
}

export function linesOf(text: string, tokens: readonly Token[]): Line[] {
  const lines: Line[] = [];
  let next = 0;
  for (let start = text.startsWith('\ufeff') ? 1 : 0; start < text.length || start === 0; ) {
    const first = next;
    let end = endOfLine(text, start);
    while (next < tokens.length && tokens[next].start < end) {
      end = Math.max(end, endOfLine(text, tokens[next].end));
      next++;
    }
    const lineBreak = /^(\r\n|\r|\n)?/.exec(text.slice(end, end + 2))![0];
    const own = tokens.slice(first, next);
    lines.push({ tokens: own, start, end, break: lineBreak, indent: own.length > 0 ? own[0].start - start : 0 });
    if (lineBreak === '') break;
    start = end + lineBreak.length;
    if (start === text.length) break;
  }
  return lines;
}

function endOfLine(text: string, from: number): number {
  const at = text.slice(from).search(/[\r\n]/);
  return at < 0 ? text.length : from + at;
}
