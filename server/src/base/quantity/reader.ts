import { parseNumber } from './number.ts';
import { type Parsed, type QuantityProblem, quote, splice } from './problem.ts';
import { scan, type Token } from './scan.ts';
import { unitsSpelled } from './units.ts';

/** A signed number with the unit written behind it, if any. */
export interface Amount {
  value: number;
  unit?: Token;
  /** Offsets of the number with its sign. */
  start: number;
  numberEnd: number;
  /** Offset behind the unit. */
  end: number;
}

/** Walks over the tokens of one text. */
export class Reader {
  readonly text: string;
  private readonly tokens: Token[];
  private at = 0;

  constructor(text: string) {
    this.text = text;
    this.tokens = scan(text);
  }

  get next(): Token | undefined {
    return this.tokens[this.at];
  }

  /** Takes the next token if its text is one of these. */
  take(...texts: string[]): Token | undefined {
    const token = this.next;
    if (!token || !texts.includes(token.text)) return undefined;
    this.at += 1;
    return token;
  }

  /** Takes two tokens that form a phrase, such as `at most`. */
  takePhrase(phrase: string): boolean {
    const words = phrase.split(' ');
    if (!words.every((word, i) => this.tokens[this.at + i]?.text.toLowerCase() === word)) return false;
    this.at += words.length;
    return true;
  }

  peek(ahead: number): Token | undefined {
    return this.tokens[this.at + ahead];
  }

  amount(): Parsed<Amount> {
    const sign = this.take('+', '-', '−');
    const token = this.next;
    if (!token || (token.kind !== 'number' && token.kind !== 'code')) return this.noNumber(sign);
    this.at += 1;
    const start = sign?.start ?? token.start;
    const factor = sign && sign.text !== '+' ? -1 : 1;
    if (token.kind === 'code') return { value: letterCode(token, start, factor) };
    const number = parseNumber(token.text, token.start);
    if (number.problem) return { problem: this.corrected(number.problem, token) };
    const unit = this.unit();
    const value = number.value === 0 ? 0 : factor * number.value;
    return { value: { value, unit, start, numberEnd: token.end, end: unit?.end ?? token.end } };
  }

  /** A unit is one word, or two where the table knows the pair, as in `sq mm`. */
  private unit(): Token | undefined {
    const word = this.next;
    if (word?.kind !== 'word' || otherWords.has(word.text.toLowerCase())) return undefined;
    this.at += 1;
    const second = this.next;
    const pair = second && `${word.text} ${second.text}`;
    if (!pair || unitsSpelled(pair).length === 0) return word;
    this.at += 1;
    return { kind: 'word', text: pair, start: word.start, end: second.end };
  }

  private noNumber(sign: Token | undefined): Parsed<Amount> {
    const token = this.next ?? sign ?? this.tokens[this.at - 1];
    const found = token ? quote(token.text) : 'the end';
    return {
      problem: {
        id: 'missing-value',
        message: this.next ? `A number is expected, not ${found}` : `A number is missing after ${found}`,
        help: 'Write a number with its unit, for example `12.6 V` or `4.7 kΩ`.',
        start: token?.start ?? 0,
        end: token?.end ?? this.text.length,
      },
    };
  }

  /** A stray separator at the end of a number is the one slip with an obvious correction. */
  private corrected(problem: QuantityProblem, token: Token): QuantityProblem {
    if (!/^\d+[.,]$/.test(token.text)) return problem;
    return { ...problem, suggestion: splice(this.text, token.end - 1, token.end, '') };
  }

  /** Whatever is left when a shape is complete. */
  trailing(): Parsed<never> | undefined {
    const token = this.next;
    if (!token) return undefined;
    const before = this.text.slice(0, token.start).trim();
    return {
      problem: {
        id: 'unexpected-text',
        message: `${quote(token.text)} is not expected after ${quote(before)}`,
        detail: 'A value is a number with a unit, a range `4.71 V .. 4.93 V` or a tolerance `4.7 kΩ ± 5 %`.',
        help: `Remove ${quote(this.text.slice(token.start))} or write the value in one of these ways.`,
        start: token.start,
        end: token.end,
      },
    };
  }
}

/** `4k7` after IEC 60062: the letter is the unit's and stands where the decimal point would. */
function letterCode(token: Token, start: number, factor: number): Amount {
  const at = token.text.search(/\D/);
  const value = factor * Number(`${token.text.slice(0, at) || '0'}.${token.text.slice(at + 1)}`);
  const letter = token.text.charAt(at);
  const unit: Token = { kind: 'word', text: letter, start: token.start + at, end: token.start + at + 1 };
  return { value, unit, start, numberEnd: token.end, end: token.end };
}

/** Words that may follow a number without being its unit. `min` is not among them: it is the minute too. */
const otherWords = new Set(['to', 'and', 'nominal', 'or', 'max', 'maximum', 'minimum']);
