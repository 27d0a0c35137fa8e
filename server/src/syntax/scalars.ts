import { CST } from 'yaml';
import { type Context, lineEnd, plainLine, withoutBlanks } from './context.ts';
import { mark, quoted } from './problems.ts';
import type { ScalarNode } from './tree.ts';

/** Plain, quoted and block texts, with escapes resolved and lines folded. */
export function scalar(c: Context, token: CST.FlowScalar | CST.BlockScalar): ScalarNode {
  return token.type === 'block-scalar' ? blockScalar(c, token) : flowScalar(c, token);
}

function flowScalar(c: Context, token: CST.FlowScalar): ScalarNode {
  const { offset, source, type } = token;
  const isQuoted = type !== 'scalar';
  const end = offset + source.length;
  let unclosed = false;
  const resolved = CST.resolveAsScalar({ ...token, end: [] }, true, (at, code) => {
    if (code === 'BAD_DQ_ESCAPE') unknownEscape(c, at);
    else if (code === 'BAD_SCALAR_START') c.needsQuotes(at);
    else unclosed = true;
  })!;
  if (unclosed) return unclosedQuote(c, token);
  if (isQuoted && swallowsEntries(token)) reportUnclosedQuote(c, offset);
  else c.trailing(token.end);
  return { kind: 'scalar', span: c.span(offset, end), text: resolved.value, quoted: isQuoted };
}

/** The quote is taken to close at the end of its line, whatever the quotes further down make of it. */
function unclosedQuote(c: Context, { offset, source }: CST.FlowScalar): ScalarNode {
  const line = withoutBlanks(source.slice(0, lineEnd(source, 0)));
  reportUnclosedQuote(c, offset);
  return { kind: 'scalar', span: c.span(offset, offset + line.length), text: line.slice(1), quoted: false };
}

function reportUnclosedQuote(c: Context, offset: number): void {
  const quote = c.text[offset]!;
  const kind = quote === '"' ? 'Double quote' : 'Single quote';
  const end = offset + withoutBlanks(c.text.slice(offset, lineEnd(c.text, offset))).length;
  c.wanted ??= { start: end, end, text: quote };
  c.report('unclosed-quote', offset, offset + 1, `${kind} is opened here and not closed`, {
    help: `add ${mark(quote)} at the end of the text`,
  });
}

/**
 * Whether a quoted text goes over lines that look like entries, with more text behind the quote that closes it: then its opening
 * quote was never closed, and the closing one is the beginning of another text.
 */
function swallowsEntries({ source, end }: CST.FlowScalar): boolean {
  const text = end?.some(({ type }) => type !== 'space' && type !== 'comment' && type !== 'newline');
  return text === true && /\n\s*(?:- +)?[^\s"':][^"':\n]*:\s/.test(source.slice(0, 1000));
}

function unknownEscape(c: Context, at: number): void {
  const length = c.text[at + 1] === 'x' || c.text[at + 1]?.toLowerCase() === 'u' ? 4 : 2;
  const raw = /^\\.?\w*/s.exec(c.text.slice(at, at + length))![0].trim();
  c.report('unknown-escape', at, at + Math.max(1, raw.length), `${quoted(raw)} has no meaning inside double quotes`, {
    detail: 'Inside double quotes a backslash gives the next character another meaning, as in `\\n` or `\\"`.',
    help: `write ${quoted(`\\${raw}`)}, or use single quotes`,
  });
}

/** What may stand behind the sign on its line. */
const HEADER = /^[|>](?:[1-9]?[+-]?|[+-][1-9])$/;

function blockScalar(c: Context, token: CST.BlockScalar): ScalarNode {
  const { offset } = token;
  const extra = token.props.some(prop => prop.type === 'error');
  if (extra || !HEADER.test(plainLine(c.text, offset).text)) return textWithoutQuotes(c, offset);
  const resolved = CST.resolveAsScalar(token, true, (at, code) => {
    if (code === 'MISSING_CHAR' && c.text[at] === '#') return c.commentWithoutBlank(at);
    const start = at + c.text.slice(at).search(/\S|$/);
    c.report('bad-indentation', start, endOfWord(c.text, start), 'Text is not indented like its first line', {
      detail: `The lines behind ${mark(c.text[offset]!)} begin in one column, right of the name before it.`,
      help: 'indent all lines of the text alike',
    });
  })!;
  const end = offset + withoutBlanks(c.text.slice(offset, resolved.range[1])).length;
  return { kind: 'scalar', span: c.span(offset, end), text: resolved.value, quoted: false };
}

/** `> 4.4 V`, as an author writes a limit: in YAML the sign begins a text on the following lines. */
function textWithoutQuotes(c: Context, offset: number): ScalarNode {
  const line = plainLine(c.text, offset);
  c.needsQuotes(offset, `YAML takes ${mark(c.text[offset]!)} for the beginning of a text on the lines below.`);
  return { kind: 'scalar', span: c.span(offset, line.end), text: line.text, quoted: false };
}

function endOfWord(text: string, at: number): number {
  return at + Math.max(1, /^\S*/.exec(text.slice(at))![0].length);
}
