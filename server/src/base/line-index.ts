/** A place in a text as editors count it: both from 0, characters in UTF-16 code units. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/**
 * Offsets of a text as lines and characters, and back. A line ends with a line feed, a carriage return or both (Language Server
 * Protocol 3.17, "Text Documents"). The lines are counted on first use. Offsets and positions outside the text give its nearest place.
 */
export class LineIndex {
  readonly text: string;
  private lineStarts: Uint32Array | undefined;

  constructor(text: string) {
    this.text = text;
  }

  get lineCount(): number {
    return this.starts.length;
  }

  position(offset: number): Position {
    const within = Math.min(Math.max(0, offset), this.text.length);
    const line = this.lineAt(within);
    return { line, character: Math.min(within, this.lineEnd(line)) - this.starts[line]! };
  }

  offset({ line, character }: Position): number {
    if (line < 0) return 0;
    if (line >= this.lineCount) return this.text.length;
    return Math.min(this.starts[line]! + Math.max(0, character), this.lineEnd(line));
  }

  lineStart(line: number): number {
    return this.offset({ line, character: 0 });
  }

  /** Where the characters of the line end, before its line break. */
  lineEnd(line: number): number {
    const { text, starts } = this;
    let end = starts[line + 1] ?? text.length;
    if (line + 1 >= starts.length) return end;
    if (text[end - 1] === '\n') end--;
    if (text[end - 1] === '\r' && end > starts[line]!) end--;
    return end;
  }

  lineText(line: number): string {
    return this.text.slice(this.lineStart(line), this.lineEnd(line));
  }

  /** The number of the line that holds the offset; binary search. */
  private lineAt(offset: number): number {
    const { starts } = this;
    let low = 0;
    let high = starts.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle;
    }
    return low;
  }

  private get starts(): Uint32Array {
    this.lineStarts ??= Uint32Array.from(lineStartsOf(this.text));
    return this.lineStarts;
  }
}

function lineStartsOf(text: string): number[] {
  const starts = [0];
  const hasReturns = text.includes('\r');
  if (!hasReturns) {
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
    return starts;
  }
  for (const { 0: sign, index } of text.matchAll(/\r\n?|\n/g)) starts.push(index + sign.length);
  return starts;
}
