import type { CST } from 'yaml';
import type { Context, Marks } from './context.ts';
import { quoted } from './problems.ts';
import type { Entry, ScalarNode } from './tree.ts';

/** YAML wants the colon at most so many characters behind the beginning of a key that has no `?` before it. */
const LONGEST_KEY = 1024;

/** The key of an entry; nothing, with a problem, where a name cannot be made of it. Its entry is left out then. */
export function keyOf(c: Context, token: CST.Token, marks: Marks, implicit: boolean): ScalarNode | undefined {
  if (token.type === 'error') return undefined;
  const node = c.node(token, marks, token.offset);
  const end = token.type === 'alias' ? token.offset + token.source.length : node.span.end;
  if (node.kind !== 'scalar') {
    c.report('key-not-text', token.offset, token.offset + 1, 'A name cannot be a list or a map', {
      detail: 'A text that begins with `{` or `[` is a map or a list in YAML.',
      help: 'put the text in quotes',
    });
    return undefined;
  }
  if (implicit && c.text.slice(token.offset, end).includes('\n')) {
    c.report('key-over-lines', token.offset, token.offset + 1, 'Name goes over several lines', {
      help: 'write the name and its colon on one line',
    });
  }
  if (node.text === '<<' && !node.quoted) {
    c.report('merge-key', token.offset, end, 'Entries cannot be copied with `<<`', {
      detail: 'A reader would have to look elsewhere for what stands here.',
      help: 'write the entries out',
    });
    return undefined;
  }
  return node;
}

export function missingKey(c: Context, at: number): void {
  c.report('missing-key', at, at + 1, 'No name stands here', { help: 'write a name before the colon' });
}

export function checkKeyLength(c: Context, key: ScalarNode, start: number, colonAt: number): void {
  if (colonAt - start <= LONGEST_KEY) return;
  c.report(
    'key-too-long',
    key.span.start,
    key.span.end,
    `Name before the colon is longer than ${LONGEST_KEY} characters`,
    {
      help: 'shorten the name, or put the whole text in quotes',
    },
  );
}

/**
 * The plain text in the place of a key. A name typed above other entries, and without its colon yet, runs on over the lines
 * below it as far as YAML is concerned; here each of its lines is an entry without value, and the last line is the key.
 * Nothing is left where there is no colon at all.
 */
export function ownKey(
  c: Context,
  token: CST.FlowScalar,
  hasColon: boolean,
  entries: Entry[],
): CST.FlowScalar | undefined {
  if (hasColon && !token.source.includes('\n')) return token;
  const lines: CST.FlowScalar[] = linesOf(token).map(line => ({ ...token, ...line, end: [] }));
  const key = hasColon ? lines.pop() : undefined;
  const [first, second = key] = lines;
  if (first && second && c.column(second.offset) > c.column(first.offset)) {
    const end = first.offset + first.source.length;
    c.wanted ??= { start: end, end, text: ':' };
  }
  for (const line of lines) entries.push(loneEntry(c, line));
  return key;
}

/** The lines of a plain text that are not blank, without the blanks around them. */
export function linesOf({ offset, source }: Line): Line[] {
  const lines: Line[] = [];
  for (const { 0: text, index } of source.matchAll(/[^ \t\r\n](?:.*[^ \t\r\n])?/g))
    lines.push({ offset: offset + index, source: text });
  return lines;
}

interface Line {
  readonly offset: number;
  readonly source: string;
}

/** The entry of a text that has no colon, or none with a blank behind it. */
export function loneEntry(c: Context, { offset, source }: Line): Entry {
  const end = offset + source.length;
  const colon = source.indexOf(':');
  const dash = source.startsWith('-');
  if (colon < 1 && !dash) {
    missingColon(c, offset, end);
    return c.entry(text(c, offset, end), c.empty(end), end);
  }
  const at = dash ? offset : offset + colon;
  c.report('missing-blank', at, at + 1, `Blank missing behind the ${dash ? 'dash' : 'colon'} in ${quoted(source)}`, {
    help: `write ${quoted(`${c.text.slice(offset, at + 1)} ${c.text.slice(at + 1, end)}`, 60)}`,
  });
  if (dash) return c.entry(text(c, offset, end), c.empty(end), end);
  return c.entry(text(c, offset, at), at + 1 < end ? text(c, at + 1, end) : c.empty(end), end);
}

export function missingColon(c: Context, offset: number, end: number): void {
  c.report('missing-colon', offset, end, `${quoted(c.text.slice(offset, end))} has no colon`, {
    detail: 'Only names with values stand here.',
    help: 'put a colon and the value behind it',
  });
}

function text(c: Context, start: number, end: number): ScalarNode {
  return { kind: 'scalar', span: c.span(start, end), text: c.text.slice(start, end), quoted: false };
}
