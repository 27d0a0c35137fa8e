import type { CST } from 'yaml';
import { type Context, endOf, plainLine } from './context.ts';
import { checkKeyLength, keyOf, linesOf, missingColon, missingKey, ownKey } from './keys.ts';
import { quoted } from './problems.ts';
import { type Props, readProps } from './props.ts';
import { scalar } from './scalars.ts';
import type { Entry, ListNode, MapNode, Node, ScalarNode } from './tree.ts';

/** A map whose entries stand on lines of their own, at one indentation. */
export function blockMap(c: Context, token: CST.BlockMap): MapNode {
  const entries: Entry[] = [];
  let offset = token.offset;
  for (const item of token.items) offset = blockEntry(c, token, item, offset, entries);
  const start = entries[0]?.span.start ?? token.offset;
  return { kind: 'map', span: c.span(start, Math.max(start, entries.at(-1)?.span.end ?? start)), entries };
}

/** A list whose items begin with a dash on lines of their own. */
export function blockList(c: Context, token: CST.BlockSequence): ListNode {
  const items: Node[] = [];
  let end = token.offset;
  for (const { start, value } of token.items) {
    const props = readProps(c, start, {
      indicator: 'seq-item-ind',
      inFlow: false,
      next: value,
      offset: end,
      parentIndent: token.indent,
      atNewline: true,
    });
    if (!props.found) {
      if (!props.anchor && !props.tag && !value) continue;
      missingDash(c, value, props.end);
    }
    const emptyAt = props.found ? props.found.offset + 1 : props.end;
    const node = c.node(value, props, emptyAt);
    items.push(node);
    end = Math.max(emptyAt, endOf(value, node));
  }
  return { kind: 'list', span: c.span(token.offset, end), items };
}

export function missingDash(c: Context, value: CST.Token | undefined, at: number): void {
  const word = c.wordAt(value?.offset ?? at);
  if (value?.type === 'block-seq') {
    c.report('bad-indentation', word.start, word.end, 'Dash does not stand under the dash of the item above', {
      help: 'move it under the other dashes',
    });
  } else {
    c.report('missing-dash', word.start, word.end, `${quoted(word.text)} stands in a list without a dash`, {
      help: 'put `- ` before it, or move it under the entries of the item above',
    });
  }
}

type BlockItem = CST.BlockMap['items'][number];

/** Reads one entry of a map into `entries` and gives the offset behind it. */
function blockEntry(c: Context, map: CST.BlockMap, item: BlockItem, offset: number, entries: Entry[]): number {
  const { start, key, sep, value } = item;
  const props = readProps(c, start, {
    indicator: 'explicit-key-ind',
    inFlow: false,
    next: key ?? sep?.[0],
    offset,
    parentIndent: map.indent,
    atNewline: true,
  });
  if (!props.found) {
    if (!props.anchor && !props.tag && !sep) return props.end;
    if (key?.type === 'block-seq') return dashAmongEntries(c, map, key, entries);
    if (key && 'indent' in key && key.indent !== map.indent) badIndentation(c, key, entries);
    if (key?.type === 'error') dashOnKeyLine(c, key, entries.at(-1));
  } else if (props.found.indent !== map.indent) badIndentation(c, props.found, entries);
  return pair(c, map.indent, { key, sep: sep ?? [], value, props }, entries);
}

interface PairParts {
  readonly key: CST.Token | null | undefined;
  readonly sep: readonly CST.SourceToken[];
  readonly value: CST.Token | undefined;
  readonly props: Props;
}

function pair(c: Context, indent: number, { key, sep, value, props }: PairParts, entries: Entry[]): number {
  const implicit = !props.found;
  const hasColon = sep.some(token => token.type === 'map-value-ind');
  // A name that was typed above other entries and has no colon yet has swallowed the name below it.
  const own = implicit && key?.type === 'scalar' && key.source ? ownKey(c, key, hasColon, entries) : key;
  if (!own && key) return key.offset + (key as CST.FlowScalar).source.length;
  const keyEnd = !own ? props.end : 'source' in own ? own.offset + own.source.length : props.end;
  const valueProps = readProps(c, sep, {
    indicator: 'map-value-ind',
    inFlow: false,
    next: value,
    offset: keyEnd,
    parentIndent: indent,
    atNewline: !own || own.type === 'block-scalar',
  });
  const keyNode = own ? keyOf(c, own, props, implicit) : undefined;
  const colon = valueProps.found;
  if (!own) missingKey(c, (colon ?? props.found)?.offset ?? props.start);
  if (implicit && props.newlineAfterMark) c.misplaced((props.anchor ?? props.tag)!);
  if (!colon && implicit && keyNode) missingColon(c, keyNode.span.start, keyNode.span.end);
  if (colon && implicit && keyNode) checkKeyLength(c, keyNode, props.start, colon.offset);
  if (keyNode && colon && implicit && value?.type === 'block-map' && !valueProps.hasNewline)
    return mapOnKeyLine(c, indent, keyNode, value, entries);
  if (value?.type === 'error' && keyNode) dashOnKeyLine(c, value, undefined, keyNode.text);
  const emptyAt = colon ? colon.offset + 1 : keyEnd;
  const node = value?.type === 'error' ? c.empty(emptyAt) : c.node(value, valueProps, emptyAt);
  const end = Math.max(emptyAt, endOf(value, node));
  if (keyNode) entries.push(c.entry(keyNode, node, end));
  return end;
}

/**
 * A map that begins on the line of its name. Either the text holds a colon and a blank (`title: Check: the valve`), or an entry
 * below is indented as if it belonged to a name that already has a value.
 */
function mapOnKeyLine(c: Context, indent: number, name: ScalarNode, map: CST.BlockMap, entries: Entry[]): number {
  const [first, ...rest] = map.items;
  const key = first?.key;
  if (key?.type !== 'scalar' || !key.source.includes('\n')) return textWithColon(c, name, map.offset, entries);
  const lines = linesOf(key);
  const deeper = lines.pop()!;
  const above = lines.at(-1)!;
  const end = deeper.offset + deeper.source.length;
  c.report('bad-indentation', deeper.offset, end, `${quoted(deeper.source)} is indented too far`, {
    detail: `${quoted(name.text)} above it already has a value, so nothing can be indented below it.`,
    help: `move it under ${quoted(name.text)}`,
  });
  const source = c.text.slice(key.offset, above.offset + above.source.length);
  const value = scalar(c, { ...key, source, end: [] });
  entries.push(c.entry(name, value, value.span.end));
  const props = { hasNewline: false, newlineAfterMark: false, start: deeper.offset, end: deeper.offset };
  const parts = { key: { ...key, ...deeper }, sep: first!.sep ?? [], value: first!.value, props };
  return rest.reduce((offset, item) => blockEntry(c, map, item, offset, entries), pair(c, indent, parts, entries));
}

function textWithColon(c: Context, name: ScalarNode, offset: number, entries: Entry[]): number {
  const { text, end } = plainLine(c.text, offset);
  c.report('colon-in-text', offset, end, 'Text with a colon and a blank in it needs quotes', {
    detail: `${quoted(text)} would itself be a name with a value.`,
    help: text.includes('"') ? 'put the text in single quotes' : 'put the text in double quotes',
  });
  entries.push(c.entry(name, { kind: 'scalar', span: c.span(offset, end), text, quoted: false }, end));
  return end;
}

function badIndentation(c: Context, token: CST.Token, entries: readonly Entry[]): void {
  const word = c.wordAt(token.offset);
  const above = entries[0]?.key;
  const detail = above
    ? `${quoted(above.text)} begins in column ${c.column(above.span.start)}, ${quoted(word.text)} in column ${c.column(word.start)}.`
    : undefined;
  c.report('bad-indentation', word.start, word.end, `${quoted(word.text)} is not in line with the entries above it`, {
    detail,
    help: above ? `move it under ${quoted(above.text)}` : 'move it under the other entries',
  });
}

function dashAmongEntries(c: Context, map: CST.BlockMap, key: CST.BlockSequence, entries: readonly Entry[]): number {
  const { offset } = key;
  if (key.indent !== map.indent) badIndentation(c, key, entries);
  else {
    c.report('mixed-list-and-map', offset, offset + 1, 'Dash stands among entries with names', {
      detail: 'One place holds either a list, whose items begin with `- `, or names with values.',
      help: 'remove the dash, or indent it below the name it belongs to',
    });
  }
  return blockList(c, key).span.end;
}

/** A dash on the line of a name, or in the column of a name that has its value already. */
function dashOnKeyLine(c: Context, token: CST.ErrorToken, above: Entry | undefined, name = above?.key.text): void {
  const { offset, source } = token;
  if (source !== '-') c.unexpected(token);
  else if (above && c.column(offset) === c.column(above.span.start)) {
    c.report('mixed-list-and-map', offset, offset + 1, 'Dash stands among entries with names', {
      detail: `${quoted(name!)} above it already has a value.`,
      help: 'remove the dash, or indent it below the name it belongs to',
    });
  } else {
    c.report('list-on-key-line', offset, offset + 1, `List begins on the line of ${quoted(name ?? 'its name')}`, {
      help: 'begin each item on a line of its own, or write the list in `[ ]`',
    });
  }
}
