import type { Entry, MapNode } from '../syntax/tree.ts';
import type { ShapeFix } from './problem.ts';

/**
 * Adds a key in the style of the map: behind the last entry of `{ … }`, else on a line of its own before the first entry, where
 * no comment behind a value can get between a key and its value.
 */
export function addKey(node: MapNode, key: string, value: string): readonly ShapeFix[] {
  const title = `Add \`${key}\``;
  const { unit, start } = node.span;
  const first = node.entries[0]?.key.span;
  const last = node.entries.at(-1)?.span;
  if (isInBraces(node)) {
    const at = last?.end ?? start + 1;
    return [
      {
        title,
        span: { unit: last?.unit ?? unit, start: at, end: at },
        text: last ? `, ${key}:${value}` : ` ${key}:${value} `,
      },
    ];
  }
  if (!first) return [];
  const indent = first.start - (first.unit.text.lastIndexOf('\n', first.start - 1) + 1);
  const span = { unit: first.unit, start: first.start, end: first.start };
  const lineBreak = first.unit.text.includes('\r\n') ? '\r\n' : '\n';
  return [{ title, span, text: `${key}:${value}${lineBreak}${' '.repeat(indent)}` }];
}

/**
 * `{ title: Frame, left rear }`: the comma was meant as part of the text, and `left rear` is read as a key without a value.
 * Gives the text in quotes; nothing where the entry does not look so.
 */
export function quoteText(node: MapNode, entry: Entry): ShapeFix | undefined {
  const { unit } = node.span;
  const before = node.entries[node.entries.indexOf(entry) - 1]?.value;
  if (!isInBraces(node) || entry.value.kind !== 'empty' || before?.kind !== 'scalar' || before.quoted) return undefined;
  const { start: from } = before.span;
  const { end: to } = entry.key.span;
  const written = unit.text.slice(from, to);
  if (before.span.unit !== unit || /["\n\\]|:$/.test(written) || unit.text[to] === ':') return undefined;
  return {
    title: 'Put the text in quotes',
    span: { unit, start: from, end: to },
    text: `"${written}"`,
    preferred: true,
  };
}

/** Between the start of the map, where an anchor may stand, and its first key. */
function isInBraces(node: MapNode): boolean {
  const { unit, start, end } = node.span;
  const first = node.entries[0]?.key.span;
  if (first && first.unit !== unit) return false;
  return unit.text.slice(start, first?.start ?? end).includes('{');
}
