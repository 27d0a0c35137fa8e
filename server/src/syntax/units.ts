/**
 * How a piece of the text is to be read:
 * - `whole`: all of the text, where it cannot be cut safely;
 * - `lead`: comments, blank lines and one `---` before the first entry;
 * - `entry`: a top-level entry with its value;
 * - `head`: the `key:` line of a top-level entry whose children are units of their own;
 * - `map child`, `list child`: one entry or item of that value;
 * - `tail`: everything from a second `---` or a `...` on.
 */
export type Form = 'whole' | 'lead' | 'entry' | 'head' | 'map child' | 'list child' | 'tail';

/** A stretch of the text from `start` to `end` (exclusive). */
export interface Piece {
  readonly form: Form;
  readonly start: number;
  readonly end: number;
}

/**
 * Cuts a text into pieces that can be read one by one. Cuts stand only at line starts, at the indentation of the entry that
 * begins there, so a piece of a well-formed text is well-formed; comments and blank lines belong to the piece before them.
 *
 * That a piece ends where the next entry begins is also how a mistake is kept small, deliberately: a quote or a bracket that is
 * still open while the author types damages its own unit, and the entries below it are read as if it were closed.
 */
export function split(text: string): readonly Piece[] {
  const cutter = new Cutter(text);
  let start = 0;
  while (start < text.length && !cutter.done) {
    const next = text.indexOf('\n', start) + 1 || text.length;
    cutter.line(start, next);
    start = next;
  }
  return cutter.pieces();
}

interface Cut {
  form: Form;
  readonly start: number;
}

const SPACE = 0x20;

/** Pieces beyond which a text is no longer something that people edit; it is read as a whole, within the bounds of that. */
const MOST_PIECES = 200_000;

class Cutter {
  done = false;
  private readonly text: string;
  private readonly cuts: Cut[] = [{ form: 'lead', start: 0 }];
  private whole = false;
  private markerSeen = false;
  /** The last cut is a `key:` line, and no line with text has followed it yet. */
  private headOpen = false;
  /** Where the children of the present top-level entry begin, if they are cut. */
  private children: { readonly indent: number; readonly list: boolean } | undefined;

  constructor(text: string) {
    this.text = text;
  }

  pieces(): readonly Piece[] {
    const { cuts, text } = this;
    if (this.whole) return [{ form: 'whole', start: 0, end: text.length }];
    return cuts
      .map(({ form, start }, i) => ({ form, start, end: cuts[i + 1]?.start ?? text.length }))
      .filter(({ start, end }) => start < end || text === '');
  }

  line(start: number, next: number): void {
    const { text } = this;
    if (this.cuts.length > MOST_PIECES) this.giveUp();
    let at = start;
    while (text.charCodeAt(at) === SPACE) at++;
    const char = text[at];
    if (at >= next || char === '\n' || char === '\r' || char === '#') return;
    const indent = at - start;
    if (this.headOpen && (indent > 0 || this.isDash(at))) this.firstChild(start, at, next);
    else if (this.children && indent <= this.children.indent && this.beginsChild(at, indent)) this.child(start);
    else if (indent === 0) this.topLine(start, next);
    else if (this.atStart) this.giveUp();
  }

  /** No entry has begun yet. */
  private get atStart(): boolean {
    return this.cuts.length === 1;
  }

  private topLine(start: number, next: number): void {
    const dash = this.isDash(start);
    if (this.isMarker(start)) this.marker(start, next);
    else if (this.atStart && (dash || this.continues(start) || NO_ENTRY.includes(this.text[start]!))) this.giveUp();
    else if (!dash && !this.continues(start)) {
      this.headOpen = isHead(this.text.slice(start, next));
      this.children = undefined;
      this.cuts.push({ form: 'entry', start });
    }
  }

  private firstChild(start: number, at: number, next: number): void {
    this.headOpen = false;
    const list = this.isDash(at);
    if (!list && !KEY.test(this.text.slice(at, next))) return;
    this.cuts.at(-1)!.form = 'head';
    this.children = { indent: at - start, list };
    this.child(start);
  }

  private child(start: number): void {
    this.cuts.push({ form: this.children!.list ? 'list child' : 'map child', start });
  }

  /**
   * A line of the children's indentation, or of less, which is a mistake that concerns this child alone. In a list a line without
   * a dash begins a child as well: the author forgot the dash, and the next item is none the worse.
   */
  private beginsChild(at: number, indent: number): boolean {
    const { list, indent: usual } = this.children!;
    if (this.isDash(at)) return list && (indent > 0 || usual === 0);
    return indent > 0 && !this.continues(at);
  }

  /** Lines that cannot begin an entry, but end something that an earlier line began. */
  private continues(at: number): boolean {
    const char = this.text[at]!;
    if (']},\t'.includes(char)) return true;
    if (char === ':') return isBlank(this.text[at + 1]) && this.explicitKey;
    return (char === '"' || char === "'") && isBlank(this.text[at + 1]);
  }

  /** Whether the present piece begins with `? `, so that the colon may stand on a line of its own. */
  private get explicitKey(): boolean {
    const { start } = this.cuts.at(-1)!;
    return /^ *\?\s/.test(this.text.slice(start, start + 100));
  }

  private isDash(at: number): boolean {
    return this.text[at] === '-' && isBlank(this.text[at + 1]);
  }

  private isMarker(at: number): boolean {
    const { text } = this;
    return (text.startsWith('---', at) || text.startsWith('...', at)) && isBlank(text[at + 3]);
  }

  /** A `---` may stand alone on its line above everything else; the next one ends what can be read. */
  private marker(start: number, next: number): void {
    const alone = /^---\s*(?:#.*)?$/.test(this.text.slice(start, next).trimEnd());
    if (!this.atStart || this.markerSeen) {
      this.cuts.push({ form: 'tail', start });
      this.done = true;
    } else if (alone) this.markerSeen = true;
    else this.giveUp();
  }

  private giveUp(): void {
    this.whole = true;
    this.done = true;
  }
}

/** Characters that begin something else than a plain or quoted key: a text that starts so is read as a whole. */
const NO_ENTRY = '[]{},&*!|>%@`?:\t';

/** A line that begins with a plain or quoted key and its colon. */
const KEY = /^(?:"[^"\\\n]*"|'[^'\n]*'|[^\s#&*!|>%@`"'[\]{},?:-](?:(?!\s#).)*?)[ \t]*:(?:\s|$)/;

/**
 * A key alone on its line, or a word that will be a key once the author has typed its colon: its children are cut all the same,
 * so that losing the colon of `steps:` does not cost the reading of every step.
 */
function isHead(line: string): boolean {
  const comment = line.search(/[ \t]#/);
  const words = (comment < 0 ? line : line.slice(0, comment)).trim().replace(/:$/, '');
  return words !== '' && !`"'-${NO_ENTRY}`.includes(words[0]!) && !/:\s|:$/.test(words);
}

function isBlank(char: string | undefined): boolean {
  return char === undefined || char === ' ' || char === '\n' || char === '\r' || char === '\t';
}
