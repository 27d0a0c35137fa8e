import type { CST } from 'yaml';
import type { Span, Unit } from '../base/span.ts';
import { mark, quoted, type SyntaxProblem, type SyntaxProblemId } from './problems.ts';
import type { EmptyNode, Entry, Node, ScalarNode } from './tree.ts';

/** Of one unit; most of them would not be told anyway. */
const MOST_PROBLEMS = 100;

/** How far a message looks around itself, so that a thousand mistakes on one long line take no longer than they should. */
const NEAR = 200;

/** What the readers of maps, lists and texts share while one unit is read: its text, its problems, and the way to read a value. */
export abstract class Context {
  readonly unit: Unit;
  /** The text of the unit, with the repair made in it; until `finish`, all offsets are offsets in this text. */
  readonly text: string;
  /** A change after which the lines below a mistake could be read. */
  wanted: Repair | undefined;
  private readonly repair: Repair | undefined;
  /** Every span that was made, where there is a repair. */
  private readonly spans: { start: number; end: number }[] = [];
  /** In the order met, which is the order of the text but for brackets that stay open. */
  problems: SyntaxProblem[] = [];

  constructor(unit: Unit, repair?: Repair) {
    this.unit = unit;
    this.repair = repair;
    const { text } = unit;
    this.text = repair ? text.slice(0, repair.start) + repair.text + text.slice(repair.end) : text;
  }

  /** The node of a token with the marks before it; an empty node at `emptyAt` where there is none. */
  abstract node(token: CST.Token | null | undefined, marks: Marks | undefined, emptyAt: number): Node;

  span(start: number, end: number): Span {
    const span = { unit: this.unit, start, end };
    if (this.repair) this.spans.push(span);
    return span;
  }

  empty(at: number): EmptyNode {
    return { kind: 'empty', span: this.span(at, at) };
  }

  entry(key: ScalarNode, value: Node, end: number): Entry {
    return { key, value, span: this.span(key.span.start, Math.max(key.span.end, end)) };
  }

  report(id: SyntaxProblemId, start: number, end: number, message: string, more: Partial<SyntaxProblem> = {}): void {
    if (this.problems.length < MOST_PROBLEMS) this.problems.push({ id, span: this.span(start, end), message, ...more });
  }

  /** A text whose first character has a meaning of its own in YAML. */
  needsQuotes(at: number, detail?: string): void {
    const char = this.text[at]!;
    const word = /^\S*/.exec(this.text.slice(at, at + NEAR))![0].replace(/[,\]}]+$/, '') || char;
    const line = plainLine(this.text, at, at + NEAR).text;
    this.report('needs-quotes', at, at + word.length, `Text that begins with ${mark(char)} needs quotes`, {
      detail: detail ?? `YAML gives ${mark(char)} a meaning of its own at the beginning of a text.`,
      help: line.includes('"') ? 'put the text in single quotes' : 'put the text in double quotes',
    });
  }

  /** An anchor or a tag where none can stand. */
  misplaced({ offset, source }: CST.SourceToken): void {
    this.report('misplaced-mark', offset, offset + source.length, `${quoted(source)} cannot stand here`, {
      help: 'remove it, or put the text in quotes',
    });
  }

  commentWithoutBlank(at: number): void {
    this.report('comment-without-blank', at, at + 1, 'Comment begins directly behind a value', {
      help: 'put a blank before `#`',
    });
  }

  /** What stands behind a value up to the end of its line; nothing but a comment may. */
  trailing(tokens: readonly CST.SourceToken[] | undefined): void {
    let blankSeen = false;
    for (const token of tokens ?? []) {
      if (token.type === 'space' || token.type === 'newline') blankSeen = true;
      else if (token.type !== 'comment') {
        this.unexpected(token);
        break;
      } else if (!blankSeen) this.commentWithoutBlank(token.offset);
    }
  }

  /** A token where none of its kind can stand. */
  unexpected({ offset, source = '' }: { readonly offset: number; readonly source?: string }): void {
    const at = offset + source.search(/\S|$/);
    const word = /^\S*/.exec(source.slice(at - offset, at - offset + NEAR))![0];
    const end = at + Math.max(1, word.length);
    const closer = /["'\]}]\s*$/.exec(this.text.slice(Math.max(0, at - NEAR), at))?.[0][0];
    if (word === ']' || word === '}') {
      const help = `remove ${mark(word)}, or put the text in quotes`;
      this.wanted ??= { start: at, end: at + 1, text: ' ' };
      this.report('stray-bracket', at, end, `${mark(word)} closes nothing`, { help });
    } else if (word === ',') {
      this.report('extra-comma', at, end, 'Comma with nothing before it', { help: 'remove the comma' });
    } else if (closer !== undefined) {
      const what = closer === '"' || closer === "'" ? 'quote' : 'bracket';
      this.report('text-after-value', at, end, `${quoted(word)} stands behind a closing ${what}`, {
        detail: `A value that begins with a ${what} ends where that ${what} closes.`,
        help: 'put the whole text in quotes',
      });
    } else {
      this.report('unreadable-text', at, end, `${word ? quoted(word) : 'A blank'} cannot stand here`, {
        help: 'put the text in quotes, or begin a new line',
      });
    }
  }

  /** The word at an offset or behind the blanks there, without its colon. */
  wordAt(offset: number): { readonly start: number; readonly end: number; readonly text: string } {
    const start = offset + this.text.slice(offset).search(/[^ \t\r\n]|$/);
    const text =
      /^(?:[^\s:]|:(?=\S))*/.exec(this.text.slice(start, start + NEAR))![0] || this.text.slice(start, start + 1);
    return { start, end: start + Math.max(1, text.length), text };
  }

  /** Counted from 1, as an editor shows it. */
  column(offset: number): number {
    return offset - this.text.lastIndexOf('\n', offset - 1);
  }

  /** Brings all spans back to the unit's own text, once everything has been read. */
  finish(): void {
    const { repair } = this;
    if (!repair) return;
    const grown = repair.text.length - (repair.end - repair.start);
    const original = (offset: number) => (offset <= repair.start ? offset : Math.max(repair.start, offset - grown));
    for (const span of this.spans) {
      span.start = original(span.start);
      span.end = original(span.end);
    }
  }
}

/** Replaces a stretch of a unit's text before it is read once more. */
export interface Repair {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** An anchor and a tag, which YAML allows before any value. */
export interface Marks {
  readonly anchor?: CST.SourceToken;
  readonly tag?: CST.SourceToken;
}

/** What stands from an offset to the end of its line, without comment and blanks at its end. */
export function plainLine(
  text: string,
  offset: number,
  limit = text.length,
): { readonly text: string; readonly end: number } {
  const line = text.slice(offset, Math.min(limit, lineEnd(text, offset)));
  const comment = line.search(/[ \t]#/);
  const plain = withoutBlanks(comment < 0 ? line : line.slice(0, comment));
  return { text: plain, end: offset + plain.length };
}

/** Where the line of an offset ends, before its line break. */
export function lineEnd(text: string, offset: number): number {
  const newline = text.indexOf('\n', offset);
  const end = newline < 0 ? text.length : newline;
  return end > offset && text[end - 1] === '\r' ? end - 1 : end;
}

/** Without the blanks of YAML at its end; `trimEnd` would take other characters away, too. */
export function withoutBlanks(text: string): string {
  let end = text.length;
  while (end > 0 && ' \t\r\n'.includes(text[end - 1]!)) end--;
  return text.slice(0, end);
}

export function isBlock(token: CST.Token | null | undefined): token is CST.BlockMap | CST.BlockSequence {
  return token?.type === 'block-map' || token?.type === 'block-seq';
}

/** Where the source of a value ends, before blanks and comments; for an alias the end of the alias itself. */
export function endOf(token: CST.Token | null | undefined, node: Node): number {
  return token?.type === 'alias' ? token.offset + token.source.length : node.span.end;
}
