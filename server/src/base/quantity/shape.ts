import { type OneEnded, parseOneEnded, parseTrailingComparison } from './comparison.ts';
import { type Parsed, quote, splice } from './problem.ts';
import { type Amount, Reader } from './reader.ts';
import type { Token } from './scan.ts';

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
  const opening = reader.take('..');
  if (opening) return missingLowEnd(reader, opening);
  const between = reader.take('between', 'from');
  if (between) return rangeWord(reader.text, between);
  const first = reader.amount();
  if (first.problem) return first;
  const nominal = first.value;
  const dots = reader.take('..');
  if (dots) return range(reader, nominal, dots);
  const tolerance = reader.take(...toleranceMarks);
  if (tolerance) return symmetric(reader, nominal);
  if (reader.take('(')) return nominalInRange(reader, nominal);
  const sign = reader.next;
  if (sign && ['+', '-', '−'].includes(sign.text)) {
    const twoSided = asymmetric(reader, nominal, sign);
    if (twoSided) return twoSided;
  }
  const mark = reader.next && otherRangeMarks.includes(reader.next.text.toLowerCase()) ? reader.next : undefined;
  if (mark) return rangeMark(reader.text, mark);
  return parseTrailingComparison(reader) ?? { value: { is: 'one', amount: nominal } };
}

function range(reader: Reader, low: Amount, dots: Token): Parsed<Shape> {
  if (!reader.next) {
    const suggestion = `at least ${reader.text.slice(low.start, low.end)}`;
    return missingEnd('The upper end of the range is missing', dots, suggestion);
  }
  const high = reader.amount();
  if (high.problem) return high;
  const word = reader.take('nominal');
  return word ? nominalBehind(reader.text, low, word) : { value: { is: 'range', low, high: high.value } };
}

/** `9 V .. 16 V nominal 12.6 V` is readable, but a nominal value stands first. */
function nominalBehind(text: string, low: Amount, word: Token): Parsed<Shape> {
  const nominal = text.slice(word.end).trim();
  const range = text.slice(low.start, word.start).trim();
  return {
    problem: {
      id: 'unexpected-text',
      message: 'A nominal value stands before its range, which follows in brackets',
      detail: 'With the nominal value first it reads as a data sheet prints it: `12.6 V (9 V .. 16 V)`.',
      help: `Write ${quote(nominal)} first and ${quote(range)} in brackets behind it.`,
      start: word.start,
      end: word.end,
      suggestion: `${nominal} (${range})`,
    },
  };
}

function missingLowEnd(reader: Reader, dots: Token): Parsed<Shape> {
  const rest = reader.text.slice(dots.end).trim();
  return missingEnd('The lower end of the range is missing', dots, `at most ${rest}`);
}

function missingEnd(message: string, dots: Token, suggestion: string): Parsed<Shape> {
  const detail = 'A range has two ends, as in `4.71 V .. 4.93 V`.';
  const help = 'Write both ends; a limit with one end is written `at least 4.71 V` or `at most 4.93 V`.';
  return { problem: { id: 'missing-end', message, detail, help, start: dots.start, end: dots.end, suggestion } };
}

function rangeMark(text: string, mark: Token): Parsed<Shape> {
  return {
    problem: {
      id: 'range-mark',
      message: `The ends of a range are parted by \`..\`, not by ${quote(mark.text)}`,
      detail: 'A dash can be taken for a minus sign, so a range is written `4.71 V .. 4.93 V`.',
      help: 'Write `..` between the two ends.',
      start: mark.start,
      end: mark.end,
      suggestion: `${text.slice(0, mark.start).trimEnd()} .. ${text.slice(mark.end).trimStart()}`,
    },
  };
}

/** `between 4.71 V and 4.93 V`: the first word goes; the second is a mark to correct of its own. */
function rangeWord(text: string, word: Token): Parsed<Shape> {
  return {
    problem: {
      id: 'range-mark',
      message: `A range is written with \`..\` and without ${quote(word.text)}`,
      detail: 'One way of writing keeps ranges readable at a glance: `4.71 V .. 4.93 V`.',
      help: `Remove ${quote(word.text)} and write \`..\` between the two ends.`,
      start: word.start,
      end: word.end,
      suggestion: splice(text, word.start, word.end, '').trim(),
    },
  };
}

function symmetric(reader: Reader, nominal: Amount): Parsed<Shape> {
  const width = reader.amount();
  if (width.problem) return width;
  return {
    value: { is: 'tolerance', nominal, plus: width.value, minus: { ...width.value, value: -width.value.value } },
  };
}

/** `+10 % / -5 %`, either sign first. A single minus is left alone: it is a dash between two ends. */
function asymmetric(reader: Reader, nominal: Amount, sign: Token): Parsed<Shape> | undefined {
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

function oneSided(text: string, sign: Token, amount: Amount): Parsed<Shape> {
  const unit = amount.unit ? ` ${amount.unit.text}` : '';
  const other = `${sign.text === '+' ? '-' : '+'}0${unit}`;
  return {
    problem: {
      id: 'missing-end',
      message: `The tolerance ${quote(text.slice(amount.start, amount.end))} has only one side`,
      detail: 'A tolerance with two different sides is written `+10 % / -5 %`.',
      help: `Write the other side as well, for example \`${other}\`, or \`±\` for both.`,
      start: amount.start,
      end: amount.end,
      suggestion: `${text.slice(0, amount.end)} / ${other}${text.slice(amount.end).replace(/^\s*\/\s*$/, '')}`,
    },
  };
}

/** `12.6 V (9 V .. 16 V)`: a nominal value with the range around it, as data sheets print it. */
function nominalInRange(reader: Reader, nominal: Amount): Parsed<Shape> {
  const low = reader.amount();
  if (low.problem) return low;
  const mark = reader.next;
  if (mark && otherRangeMarks.includes(mark.text.toLowerCase())) return rangeMark(reader.text, mark);
  const dots = reader.take('..');
  if (!dots) return unclosed(reader, low.value, 'missing-end', 'The upper end of the range is missing');
  const high = reader.amount();
  if (high.problem) return high;
  if (!reader.take(')')) return unclosed(reader, high.value, 'unexpected-text', 'The bracket is not closed');
  return { value: { is: 'nominal in range', nominal, low: low.value, high: high.value } };
}

function unclosed(reader: Reader, last: Amount, id: 'missing-end' | 'unexpected-text', message: string): Parsed<Shape> {
  const help = 'Write a nominal value with its range as `12.6 V (9 V .. 16 V)`.';
  const suggestion = id === 'unexpected-text' && !reader.next ? `${reader.text.slice(0, last.end)})` : undefined;
  return { problem: { id, message, help, start: last.start, end: last.end, suggestion } };
}
