import type { LineIndex } from '../base/line-index.ts';
import { harmless } from './paint.ts';
import type { Range } from './report.ts';

/** A longer line is shown around its mark only. */
const widest = 120;

/** The line that the range begins on, and below it a mark under the characters meant. */
export function sourceLine(lines: LineIndex, { start, end }: Range): string[] {
  const line = lines.lineText(start.line);
  if (line.trim() === '') return [];
  const last = end.line === start.line ? end.character : line.length;
  const from = line.length <= widest ? 0 : Math.max(0, start.character - widest / 3);
  const shown = line.slice(from, from + widest);
  const before = shown.slice(0, start.character - from);
  const meant = shown.slice(start.character - from, Math.max(last, start.character + 1) - from);
  const number = String(start.line + 1).padStart(5);
  const [cutBefore, cutAfter] = [from > 0 ? '…' : '', from + widest < line.length ? '…' : ''];
  return [
    `${number} | ${cutBefore}${harmless(shown)}${cutAfter}`,
    `${' '.repeat(number.length)} | ${' '.repeat(cutBefore.length)}${blank(before)}${'^'.repeat(Math.max(1, width(meant)))}`,
  ];
}

/** Blanks that are as wide as the text; a tab stays a tab. */
function blank(text: string): string {
  return [...text].map(sign => (sign === '\t' ? '\t' : ' ')).join('');
}

function width(text: string): number {
  return [...text].length;
}
