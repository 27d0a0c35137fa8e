import type { Line } from './lines.ts';
import type { Token } from './tokens.ts';

/** Where a line begins in the normal form, and where the texts that go on below it stand. */
export interface Placed {
  readonly indent: number;
  /** Column of the entry or item that the line opens last. */
  readonly inner: number;
  /** The same column as the author wrote it. */
  readonly innerBefore: number;
}

interface Level {
  readonly kind: 'map' | 'list' | 'value';
  readonly before: number;
  readonly after: number;
}

const step = 2;

/** The indentation of every line: two blanks for each level, whatever the author used. Comments go with what they stand beside. */
export function indentations(lines: readonly Line[]): Placed[] {
  const levels: Level[] = [];
  const placed: Placed[] = [];
  let depth = 0;
  let opened: Placed = { indent: 0, inner: 0, innerBefore: 0 };
  let comments: number[] = [];

  lines.forEach((line, i) => {
    const [first] = line.tokens;
    if (!first) placed[i] = { indent: 0, inner: 0, innerBefore: 0 };
    else if (first.kind === 'comment' && depth === 0) comments.push(i);
    else if (depth > 0) placed[i] = inBrackets(line, opened, depth);
    else {
      const before = [...levels];
      opened = inBlock(line, levels);
      placed[i] = opened;
      for (const at of comments) placed[at] = beside(lines[at].indent, [...before, ...levels]);
      comments = [];
    }
    depth += depthChange(line.tokens);
  });
  for (const at of comments) placed[at] = beside(lines[at].indent, levels);
  return placed;
}

function inBlock(line: Line, levels: Level[]): Placed {
  const dashes = line.tokens.findIndex(token => !isDash(token));
  const marks = line.tokens.slice(0, dashes < 0 ? line.tokens.length : dashes);
  const rest = line.tokens.slice(marks.length);
  const openings: { kind: Level['kind']; column: number }[] = marks.map(token => ({
    kind: 'list',
    column: token.start - line.start,
  }));
  const isEntry = rest[1]?.kind === 'mark' && rest[1].text === ':';
  if (rest.length > 0 && rest[0].kind !== 'comment')
    openings.push({ kind: isEntry ? 'map' : 'value', column: rest[0].start - line.start });

  const all = openings.map(({ kind, column }) => enter(levels, kind, column));
  const last = all.at(-1) ?? { before: 0, after: 0 };
  return { indent: all[0]?.after ?? 0, inner: last.after, innerBefore: last.before };
}

/** The level that an entry or item in this column belongs to; levels that end here are left. */
function enter(levels: Level[], kind: Level['kind'], column: number): Level {
  while (levels.length > 0) {
    const top = levels.at(-1)!;
    // A list may stand in the column of the key that it belongs to.
    const goesOn = top.before < column || (top.before === column && (top.kind === kind || kind === 'list'));
    if (goesOn && top.kind !== 'value') break;
    levels.pop();
  }
  const top = levels.at(-1);
  if (top?.kind === kind && top.before === column) return top;
  const level = { kind, before: column, after: top ? top.after + step : 0 };
  levels.push(level);
  return level;
}

/** Inside brackets that go over several lines each bracket is a level. */
function inBrackets(line: Line, opened: Placed, depth: number): Placed {
  const closing = line.tokens.findIndex(token => !isClosing(token));
  const closed = closing < 0 ? line.tokens.length : closing;
  const indent = opened.inner + step * Math.max(0, depth - closed);
  return { indent, inner: indent, innerBefore: line.indent };
}

/** A comment stands where the nearest of the levels around it stands. */
function beside(column: number, levels: readonly Level[]): Placed {
  let best: Level = { kind: 'map', before: 0, after: 0 };
  for (const level of levels) if (Math.abs(level.before - column) <= Math.abs(best.before - column)) best = level;
  return { indent: best.after, inner: best.after, innerBefore: column };
}

export function depthChange(tokens: readonly Token[]): number {
  return tokens.reduce((sum, token) => sum + (isOpening(token) ? 1 : isClosing(token) ? -1 : 0), 0);
}

function isDash({ kind, text }: Token): boolean {
  return kind === 'mark' && text === '-';
}

export function isOpening({ kind, text }: Token): boolean {
  return kind === 'mark' && (text === '{' || text === '[');
}

export function isClosing({ kind, text }: Token): boolean {
  return kind === 'mark' && (text === '}' || text === ']');
}
