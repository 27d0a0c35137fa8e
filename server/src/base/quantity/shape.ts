import { type OneEnded, parseOneEnded, parseTrailingComparison } from './comparison.ts';
import type { Parsed } from './problem.ts';
import { type Amount, Reader } from './reader.ts';
import type { Token } from './scan.ts';
import { missingEnd, nominalBehind, oneSided, rangeMark, rangeWord, unclosedBracket } from './shape-problems.ts';

/** How a value is written, before any unit has been looked at. */
export type Shape =
  | { is: 'one'; amount: Amount }
  | { is: 'range'; low: Amount; high: Amount }
  | { is: 'nominal in range'; nominal: Amount; low: Amount; high: Amount }
  | { is: 'tolerance'; nominal: Amount; plus: Amount; minus: Amount }
  | OneEnded;

/** Reads the whole text as one shape. Whatever follows the shape is a problem at its first token. */
export function parseShape(text: string): Parsed<Shape> {
  const reader = new Reader(text);
  if (!reader.next) {
    const message = 'A value is missing here';
    const help = 'Write a number with its unit, for example `12.6 V` or `4.7 kΩ ± 5 %`.';
    return { problem: { id: 'missing-value', message, help, start: 0, end: text.length } };
  }
  const shape = parseOneEnded(reader) ?? beginsWithAmount(reader);
  return shape.problem ? shape : (reader.trailing() ?? shape);
}

/** Marks that people put between the ends of a range; one obvious way is kept, so these are corrected. */
const otherRangeMarks = ['...', '…', '–', '—', '-', '−', '~', 'to', 'and'];
const toleranceMarks = ['±', '+/-', '+/−', '+-', '+−'];

function beginsWithAmount(reader: Reader): Parsed<Shape> {
  const dots = reader.take('..');
  if (dots) return missingEnd('lower', dots, `at most ${reader.text.slice(dots.end).trim()}`);
  const between = reader.take('between', 'from');
  if (between) return rangeWord(reader.text, between);
  const first = reader.amount();
  return first.problem ? first : continues(reader, first.value);
}

/** What follows a first amount decides the shape. */
function continues(reader: Reader, first: Amount): Parsed<Shape> {
  const dots = reader.take('..');
  if (dots) return range(reader, first, dots);
  if (reader.take(...toleranceMarks)) return symmetric(reader, first);
  if (reader.take('(')) return nominalInRange(reader, first);
  const twoSided = asymmetric(reader, first);
  if (twoSided) return twoSided;
  const mark = otherRangeMark(reader);
  if (mark) return rangeMark(reader.text, mark);
  return parseTrailingComparison(reader) ?? { value: { is: 'one', amount: first } };
}

function otherRangeMark(reader: Reader): Token | undefined {
  return reader.next && otherRangeMarks.includes(reader.next.text.toLowerCase()) ? reader.next : undefined;
}

function range(reader: Reader, low: Amount, dots: Token): Parsed<Shape> {
  if (!reader.next) return missingEnd('upper', dots, `at least ${reader.text.slice(low.start, low.end)}`);
  const high = reader.amount();
  if (high.problem) return high;
  const word = reader.take('nominal');
  return word ? nominalBehind(reader.text, low, word) : { value: { is: 'range', low, high: high.value } };
}

function symmetric(reader: Reader, nominal: Amount): Parsed<Shape> {
  const width = reader.amount();
  if (width.problem) return width;
  return {
    value: { is: 'tolerance', nominal, plus: width.value, minus: { ...width.value, value: -width.value.value } },
  };
}

/** `+10 % / -5 %`, either sign first. A single minus is left alone: it is a dash between two ends. */
function asymmetric(reader: Reader, nominal: Amount): Parsed<Shape> | undefined {
  const sign = reader.next;
  if (!sign || !['+', '-', '−'].includes(sign.text)) return undefined;
  const isDash = sign.text !== '+';
  const tokensOfOne = reader.peek(2)?.kind === 'word' ? 3 : 2;
  if (isDash && !isTolerance(reader, tokensOfOne)) return undefined;
  const first = reader.amount();
  if (first.problem) return first;
  reader.take('/');
  const other = reader.next;
  if (!other || !(isDash ? ['+'] : ['-', '−']).includes(other.text)) return oneSided(reader.text, sign, first.value);
  const second = reader.amount();
  if (second.problem) return second;
  const [plus, minus] = isDash ? [second.value, first.value] : [first.value, second.value];
  return { value: { is: 'tolerance', nominal, plus, minus } };
}

function isTolerance(reader: Reader, tokensOfOne: number): boolean {
  return reader.peek(tokensOfOne - 1)?.text === '%' || ['/', '+'].includes(reader.peek(tokensOfOne)?.text ?? '');
}

/** `12.6 V (9 V .. 16 V)`: a nominal value with the range around it, as data sheets print it. */
function nominalInRange(reader: Reader, nominal: Amount): Parsed<Shape> {
  const low = reader.amount();
  if (low.problem) return low;
  const mark = otherRangeMark(reader);
  if (mark) return rangeMark(reader.text, mark);
  if (!reader.take('..')) return missingEnd('upper', low.value);
  const high = reader.amount();
  if (high.problem) return high;
  if (!reader.take(')')) return unclosedBracket(reader.text, high.value, !reader.next);
  return { value: { is: 'nominal in range', nominal, low: low.value, high: high.value } };
}
