import { type CST, Lexer, Parser } from 'yaml';
import type { Unit } from '../base/span.ts';
import { missingDash } from './blocks.ts';
import { Composer } from './composer.ts';
import type { Repair } from './context.ts';
import { repeatedKeys } from './duplicates.ts';
import { linesOf, loneEntry } from './keys.ts';
import { quoted, type SyntaxProblem } from './problems.ts';
import { readProps, reportTab } from './props.ts';
import type { Entry, Node } from './tree.ts';
import type { Form } from './units.ts';

/** What stands in a unit. */
export interface Content {
  readonly entries: readonly Entry[];
  /** Of a list child. */
  readonly items: readonly Node[];
  /** Of a whole text. */
  readonly root?: Node;
  readonly problems: readonly SyntaxProblem[];
}

/** Maps and lists within one another; deeper ones are nobody's work and would exhaust the stack. */
const MOST_LEVELS = 100;

/** Words, blanks, colons and brackets in one unit: seven times those of a procedure of 1,000 steps. */
const MOST_SIGNS = 1_000_000;

const NOTHING: Content = { entries: [], items: [], problems: [] };

/**
 * Reads one unit. Of what is wrong with the form of its text only the first is told, because what follows is mostly a
 * consequence. Where a mistake hides the lines below it (a quote, a bracket or a colon is missing), it is repaired and the
 * unit read once more, so that the rest of a step is still understood while the author types in it.
 */
export function readUnit(unit: Unit, form: Form): Content {
  if (form === 'lead') return NOTHING;
  if (form === 'tail') return readTail(unit);
  const { content, wanted } = readText(unit, form);
  return wanted ? { ...readText(unit, form, wanted).content, problems: content.problems } : content;
}

function readText(unit: Unit, form: Form, repair?: Repair): { readonly content: Content; readonly wanted?: Repair } {
  const c = new Composer(unit, repair);
  const tokens = concreteSyntax(c);
  if (!tokens) return { content: { ...NOTHING, problems: c.problems } };
  const entries: Entry[] = [];
  const items: Node[] = [];
  let root: Node | undefined;
  let directive: CST.Directive | undefined;
  for (const token of tokens) {
    if (token.type === 'directive') directive ??= token;
    else if (token.type === 'document' && root) {
      severalDocuments(c, token.start.find(t => t.type === 'doc-start')?.offset ?? token.offset);
      break;
    } else if (token.type === 'document') {
      if (token.start.some(t => t.type === 'doc-start')) directive = undefined;
      root = readDocument(c, token, form, entries, items);
    } else if (token.type === 'error') c.unexpected(token);
    else if (token.type === 'doc-end') c.trailing(token.end);
  }
  if (directive) c.needsQuotes(directive.offset);
  // Names that stand beside those of other units are compared when the units are put together.
  const nodes = form === 'whole' && root ? [root] : [...items, ...entries.map(entry => entry.value)];
  const seen = new Set<Node>();
  for (const node of nodes) c.problems.push(...repeatedKeys(node, seen));
  controlCharacter(c);
  const problems = firstOnly(c.problems);
  c.finish();
  return { content: { entries, items, root: form === 'whole' ? root : undefined, problems }, wanted: c.wanted };
}

/** The tokens of a unit; nothing, with a problem, where reading it would exhaust the memory or the stack. */
function concreteSyntax(c: Composer): readonly CST.Token[] | undefined {
  const parser = new Parser();
  const tokens: CST.Token[] = [];
  let signs = 0;
  for (const lexeme of new Lexer().lex(c.text)) {
    for (const token of parser.next(lexeme)) tokens.push(token);
    const at = parser.offset;
    if (parser.stack.length > MOST_LEVELS + 1) {
      c.report('too-deep', at, at + 1, `Values are nested more than ${MOST_LEVELS} levels deep`, {
        help: 'close brackets that were left open, or write the values less deeply nested',
      });
      return undefined;
    }
    if (++signs > MOST_SIGNS) {
      c.report('file-too-large', at, at + 1, 'File has more values than can be read', {
        detail: 'What stands here and below is not read, so that the editor stays quick.',
        help: 'split it into several files',
      });
      return undefined;
    }
  }
  for (const token of parser.end()) tokens.push(token);
  return tokens;
}

/** Reads what a document holds into the entries or items that the form of its unit asks for. */
function readDocument(
  c: Composer,
  { start, value, end, offset }: CST.Document,
  form: Form,
  entries: Entry[],
  items: Node[],
): Node {
  const next = value ?? end?.[0];
  const props = readProps(c, start, {
    indicator: 'doc-start',
    inFlow: false,
    next,
    offset,
    parentIndent: 0,
    atNewline: true,
  });
  if (props.found && !props.hasNewline && value && (value.type === 'block-map' || value.type === 'block-seq')) {
    const at = value.offset;
    c.report('bad-indentation', at, at + 1, 'Entries begin on the line of `---`', {
      help: 'begin them on the next line',
    });
  }
  if (form !== 'whole' && (props.anchor ?? props.tag)) c.misplaced((props.anchor ?? props.tag)!);
  // A single word is an entry whose colon has not been typed yet, in an otherwise empty file as well.
  const lone = value?.type === 'scalar' && form !== 'list child' && !props.anchor && !props.tag;
  if (lone) {
    for (const line of linesOf(value)) entries.push(loneEntry(c, line));
    c.trailing(value.end);
    return { kind: 'map', span: c.span(value.offset, entries.at(-1)!.span.end), entries: [...entries] };
  }
  const node = c.node(value, props, props.end);
  const beyond = end?.find(token => !['space', 'newline', 'comment'].includes(token.type));
  if (beyond) beyondDocument(c, beyond.offset);
  if (form === 'list child') {
    if (value?.type !== 'block-seq') missingDash(c, value, props.end);
    items.push(...(node.kind === 'list' && value?.type === 'block-seq' ? node.items : [node]));
  } else if (form !== 'whole') {
    if (node.kind === 'map' && value?.type === 'block-map') entries.push(...node.entries);
    else if (value) nameless(c, value);
  }
  return node;
}

/** Text behind a value that has ended: the first word of a line that is indented less than the first one, mostly. */
function beyondDocument(c: Composer, offset: number): void {
  const indent = c.text.slice(c.text.lastIndexOf('\n', offset - 1) + 1, offset);
  const word = c.wordAt(offset);
  if (/\S/.test(indent)) c.unexpected({ offset, source: word.text });
  else if (indent.includes('\t')) reportTab(c, offset - indent.length + indent.indexOf('\t'));
  else {
    c.report('bad-indentation', word.start, word.end, `${quoted(word.text)} is not in line with what stands above it`, {
      help: 'indent it like the entries it belongs to',
    });
  }
}

function nameless(c: Composer, { offset }: CST.Token): void {
  const word = /^\S*/.exec(c.text.slice(offset, offset + 200))![0];
  c.report('missing-colon', offset, offset + Math.max(1, word.length), `${quoted(word)} stands where a name belongs`, {
    detail: 'Only names with values stand here.',
    help: 'put a name and a colon before it',
  });
}

function severalDocuments(c: Composer, at: number): void {
  c.report('several-documents', at, at + 3, 'Second document begins in the same file', {
    detail: 'A file holds one document; what stands below `---` is not read.',
    help: 'move it to a file of its own',
  });
}

/** Behind the end of the document comments may stand, nothing else. */
function readTail(unit: Unit): Content {
  const rest = /^[^\S\n]*(?!#|\.\.\.\s)\S/m.exec(`${unit.text}\n`);
  if (!rest) return NOTHING;
  const c = new Composer(unit);
  const at = rest.index + rest[0].length - 1;
  severalDocuments(c, at);
  return { ...NOTHING, problems: c.problems };
}

function controlCharacter(c: Composer): void {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these characters are what is looked for.
  const found = /[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]/.exec(c.text);
  if (!found) return;
  const code = found[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
  c.report('control-character', found.index, found.index + 1, `Invisible control character U+${code}`, {
    help: 'remove it',
  });
}

/** Problems that concern meaning stand beside one another; of those that concern the form of the text only the first is sure. */
const INDEPENDENT: readonly string[] = ['duplicate-key', 'unknown-alias', 'tag-without-meaning', 'merge-key'];

function firstOnly(problems: readonly SyntaxProblem[]): readonly SyntaxProblem[] {
  const sorted = problems.toSorted((a, b) => a.span.start - b.span.start);
  const form = sorted.find(problem => !INDEPENDENT.includes(problem.id));
  return form ? [form] : sorted;
}
