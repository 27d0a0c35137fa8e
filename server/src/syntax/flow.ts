import type { CST } from 'yaml';
import { type Context, endOf, isBlock, type Marks, plainLine } from './context.ts';
import { keyOf, loneEntry, missingKey } from './keys.ts';
import { mark, quoted } from './problems.ts';
import { type Props, type PropsPlace, readProps } from './props.ts';
import type { Entry, ListNode, MapNode, Node, ScalarNode } from './tree.ts';

/** A map or a list in brackets. */
export function flowCollection(c: Context, token: CST.FlowCollection): MapNode | ListNode {
  return new Brackets(c, token).read();
}

class Brackets {
  private readonly c: Context;
  private readonly token: CST.FlowCollection;
  private readonly isMap: boolean;
  private readonly entries: Entry[] = [];
  private readonly items: Node[] = [];
  /** Behind what has been read. */
  private offset: number;

  constructor(c: Context, token: CST.FlowCollection) {
    this.c = c;
    this.token = token;
    this.isMap = token.start.source === '{';
    this.offset = token.offset + 1;
  }

  read(): MapNode | ListNode {
    const { c, token, entries, items } = this;
    const problemsBefore = c.problems.length;
    for (const [i, item] of token.items.entries()) this.item(item, i);
    const span = c.span(token.offset, closing(c, token, this.offset, problemsBefore));
    return this.isMap ? { kind: 'map', span, entries } : { kind: 'list', span, items };
  }

  private item(item: CST.CollectionItem, i: number): void {
    const { c, token } = this;
    const { start, key, sep, value } = item;
    const props = this.props(start, 'explicit-key-ind', key ?? sep?.[0]);
    const { found, anchor, tag, comma } = props;
    const bare = !found && !sep;
    if (i === 0 && comma) extraComma(c, comma);
    if (bare && !anchor && !tag && !value) {
      if (i > 0 && i < token.items.length - 1) extraComma(c, nextComma(token, i) ?? comma ?? token.start);
      this.offset = props.end;
      return;
    }
    if (i > 0 && !comma) missingComma(c, props.start);
    if (!this.isMap && bare) {
      const node = inBrackets(c, value, props, props.end);
      this.items.push(node);
      this.offset = Math.max(props.end, endOf(value, node));
    } else this.pair(item, props);
  }

  private pair({ key, sep, value }: CST.CollectionItem, props: Props): void {
    const { c, isMap } = this;
    if (isMap && !sep?.length && !value && key?.type === 'scalar' && COLON_INSIDE.test(key.source)) {
      this.add(loneEntry(c, key), key.offset + key.source.length);
      return;
    }
    const implicit = !props.found;
    const keyNode = this.key(key, props, implicit);
    this.offset = key && 'source' in key ? key.offset + key.source.length : props.end;
    const valueProps = this.props(sep ?? [], 'map-value-ind', value);
    const colon = valueProps.found;
    if (!key) missingKey(c, (colon ?? props.found)?.offset ?? props.start);
    if (!colon && value) missingCommaOrColon(c, value, valueProps.start);
    if (colon && !isMap && implicit && keyNode) sameLine(c, keyNode.span.start, colon.offset);
    const emptyAt = colon ? colon.offset + 1 : this.offset;
    const node = inBrackets(c, value, valueProps, emptyAt);
    const end = Math.max(emptyAt, endOf(value, node));
    this.add(keyNode && c.entry(keyNode, node, end), end);
  }

  private key(token: CST.Token | null | undefined, props: Props, implicit: boolean): ScalarNode | undefined {
    if (isBlock(token)) blockInBrackets(this.c, token);
    else if (token) return keyOf(this.c, token, props, implicit && !this.isMap);
    return undefined;
  }

  /** An entry of a map; in a list it is a map of its own, as in `[a: 1]`. */
  private add(entry: Entry | undefined, end: number): void {
    this.offset = end;
    if (!entry) return;
    if (this.isMap) this.entries.push(entry);
    else this.items.push({ kind: 'map', span: entry.span, entries: [entry] });
  }

  private props(
    tokens: CST.SourceToken[],
    indicator: PropsPlace['indicator'],
    next: CST.Token | null | undefined,
  ): Props {
    const { offset, token } = this;
    return readProps(this.c, tokens, {
      indicator,
      inFlow: true,
      next,
      offset,
      parentIndent: token.indent,
      atNewline: false,
    });
  }
}

/** A name and its value without a blank between them. */
const COLON_INSIDE = /^[^:]+:[^:]/;

/** A value; a text with a colon and a blank in it, or lines with dashes, cannot stand in brackets. */
function inBrackets(c: Context, value: CST.Token | undefined, marks: Marks, emptyAt: number): Node {
  if (!isBlock(value)) return c.node(value, marks, emptyAt);
  if (value.type === 'block-seq' || c.text.slice(value.offset, lastOffset(value)).includes('\n')) {
    blockInBrackets(c, value);
    return c.node(value, marks, emptyAt);
  }
  const first = value.items[0];
  const behindQuote =
    first?.key?.type.endsWith('quoted-scalar') && first.sep?.find(token => !AROUND_COLON.includes(token.type));
  if (behindQuote) {
    missingComma(c, behindQuote.offset);
    return c.node(first.key, marks, emptyAt);
  }
  const { text, end } = plainLine(c.text, value.offset, lastOffset(value));
  c.report('colon-in-text', value.offset, end, 'Text with a colon and a blank in it needs quotes', {
    detail: `${quoted(text)} would itself be a name with a value; a comma may be missing, too.`,
    help: 'put the text in quotes, or separate the entries with a comma',
  });
  return { kind: 'scalar', span: c.span(value.offset, end), text, quoted: false };
}

const AROUND_COLON = ['space', 'newline', 'comment', 'map-value-ind'];

/** Where the last token inside a block ends. */
function lastOffset(block: CST.BlockMap | CST.BlockSequence): number {
  const item = block.items.at(-1);
  const last = item?.value ?? item?.sep?.at(-1) ?? item?.key ?? item?.start.at(-1);
  if (!last) return block.offset;
  if (isBlock(last)) return lastOffset(last);
  if (last.type === 'flow-collection') return (last.end[0] ?? last.start).offset + 1;
  return last.offset + ('source' in last ? (last.source ?? '').length : 0);
}

function closing(c: Context, token: CST.FlowCollection, offset: number, problemsBefore: number): number {
  const expected = token.start.source === '{' ? '}' : ']';
  const [first, ...others] = token.end;
  if (first?.source === expected) {
    c.trailing(others);
    return first.offset + 1;
  }
  // What else seems wrong inside came of the missing bracket, unless an inner one is missing already.
  const inside = c.problems.splice(problemsBefore);
  const inner = inside.filter(problem => problem.id === 'unclosed-bracket' || problem.id === 'unclosed-quote');
  if (inner.length > 0) c.problems.push(...inner);
  else unclosedBracket(c, token, expected, first);
  const lineEnd = plainLine(c.text, token.offset).end;
  if (inside.length > inner.length) c.wanted ??= { start: lineEnd, end: lineEnd, text: expected };
  return offset;
}

function unclosedBracket(
  c: Context,
  { offset, start }: CST.FlowCollection,
  expected: string,
  other?: CST.SourceToken,
): void {
  const wrong = other && (other.source === ']' || other.source === '}') ? other : undefined;
  c.report('unclosed-bracket', offset, offset + 1, `${mark(start.source)} is not closed`, {
    detail: 'All of what stands in brackets is indented further than the name before them.',
    help: wrong ? `write ${mark(expected)} in place of ${mark(wrong.source)}` : `add ${mark(expected)}`,
    related: wrong && [
      { span: c.span(wrong.offset, wrong.offset + 1), message: `${mark(wrong.source)} closes nothing` },
    ],
  });
}

function sameLine(c: Context, start: number, colonAt: number): void {
  const text = c.text.slice(start, colonAt);
  if (text.includes('\n') || text.length > 1024) {
    c.report('key-over-lines', start, start + 1, 'Name and colon do not stand on one line', {
      help: 'write the name and its colon on one line, or put the entry in `{ }`',
    });
  }
}

function blockInBrackets(c: Context, { offset }: CST.Token): undefined {
  const word = /^\S*/.exec(c.text.slice(offset, offset + 200))![0];
  c.report('bracket-holds-block', offset, offset + Math.max(1, word.length), `${quoted(word)} stands inside brackets`, {
    detail: 'Between brackets values are separated by commas, not by lines.',
    help: 'separate the values with commas, or take the brackets away',
  });
}

function missingCommaOrColon(c: Context, value: CST.Token, at: number): void {
  const source = 'source' in value ? (value.source ?? '') : '';
  if (source.startsWith(':')) {
    c.report('missing-blank', value.offset, value.offset + 1, 'Blank missing behind the colon', {
      help: 'put a blank behind the colon',
    });
  } else missingComma(c, at);
}

function missingComma(c: Context, at: number): void {
  const start = at + c.text.slice(at).search(/\S|$/);
  const word = /^[^\s,\]}]*/.exec(c.text.slice(start, start + 200))![0];
  c.report(
    'missing-comma',
    start,
    start + Math.max(1, word.length),
    `Comma missing before ${word ? quoted(word) : 'this'}`,
    {
      help: 'separate the values with a comma',
    },
  );
}

function extraComma(c: Context, token: CST.SourceToken): void {
  c.report('extra-comma', token.offset, token.offset + 1, 'Comma with nothing before it', { help: 'remove the comma' });
}

function nextComma(token: CST.FlowCollection, i: number): CST.SourceToken | undefined {
  return token.items[i + 1]?.start.find(t => t.type === 'comma');
}
