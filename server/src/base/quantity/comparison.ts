import { type Parsed, quote, splice } from './problem.ts';
import type { Amount, Reader } from './reader.ts';
import type { Token } from './scan.ts';

export type Comparison = 'below' | 'above' | 'at most' | 'at least';

export type OneEnded =
  | { is: 'comparison'; comparison: Comparison; amount: Amount }
  | { is: 'over limit'; start: number; end: number };

/** The shapes that only a limit can have: a comparison or `OL`. Nothing where the text begins otherwise. */
export function parseOneEnded(reader: Reader): Parsed<OneEnded> | undefined {
  const first = reader.next;
  if (!first) return undefined;
  if (reader.take('OL')) return { value: { is: 'over limit', start: first.start, end: first.end } };
  if (overLimitSlips.has(first.text.toLowerCase())) return overLimitSlip(reader.text, first);
  for (const [written, comparison] of Object.entries(comparisons)) {
    if (!reader.takePhrase(written)) continue;
    const amount = reader.amount();
    return amount.problem ? amount : { value: { is: 'comparison', comparison, amount: amount.value } };
  }
  for (const [written, comparison] of Object.entries(otherComparisons)) {
    if (!reader.takePhrase(written)) continue;
    const rest = reader.text.slice(reader.next?.start ?? reader.text.length);
    return limitWord(first, written, comparison, rest);
  }
  return undefined;
}

/** A test sheet's `0.2 V max` is a comparison as well, with its word behind the value. */
export function parseTrailingComparison(reader: Reader): Parsed<OneEnded> | undefined {
  const first = reader.next;
  if (!first) return undefined;
  for (const [written, comparison] of Object.entries(trailingComparisons)) {
    if (reader.takePhrase(written)) return limitWord(first, written, comparison, reader.text.slice(0, first.start));
  }
  return undefined;
}

const comparisons: Record<string, Comparison> = {
  '<': 'below',
  '>': 'above',
  '<=': 'at most',
  '≤': 'at most',
  '>=': 'at least',
  '≥': 'at least',
  below: 'below',
  above: 'above',
  'at most': 'at most',
  'at least': 'at least',
};

const otherComparisons: Record<string, Comparison> = {
  '=<': 'at most',
  '=>': 'at least',
  'less than': 'below',
  'lower than': 'below',
  'more than': 'above',
  'greater than': 'above',
  'higher than': 'above',
  'up to': 'at most',
  under: 'below',
  over: 'above',
  max: 'at most',
  min: 'at least',
  maximum: 'at most',
  minimum: 'at least',
};

const trailingComparisons: Record<string, Comparison> = {
  max: 'at most',
  min: 'at least',
  maximum: 'at most',
  minimum: 'at least',
  'or less': 'at most',
  'or lower': 'at most',
  'or more': 'at least',
  'or higher': 'at least',
};

const overLimitSlips = new Set(['ol', '0l', '∞', 'inf', 'infinite', 'infinity', 'overload']);

function overLimitSlip(text: string, token: Token): Parsed<OneEnded> {
  return {
    problem: {
      id: 'limit-word',
      message: `${quote(token.text)} is written \`OL\` in a limit`,
      detail: '`OL` (over limit) is what a meter shows when the reading is beyond its range.',
      help: 'Write `OL`.',
      start: token.start,
      end: token.end,
      suggestion: splice(text, token.start, token.end, 'OL'),
      certain: true,
    },
  };
}

function limitWord(word: Token, written: string, comparison: Comparison, rest: string): Parsed<OneEnded> {
  return {
    problem: {
      id: 'limit-word',
      message: `${quote(written)} is written \`${comparison}\` in a limit`,
      detail: 'A limit with one end begins with `below`, `above`, `at most` or `at least`.',
      help: `Write \`${comparison}\` before the value.`,
      start: word.start,
      end: word.end,
      suggestion: `${comparison} ${rest.trim()}`,
      certain: true,
    },
  };
}
