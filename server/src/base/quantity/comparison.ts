import { type Parsed, quote, splice } from './problem.ts';
import type { Amount, Reader } from './reader.ts';
import type { Token } from './scan.ts';

export type Comparison = 'below' | 'above' | 'at most' | 'at least';

export type OneEnded =
  | { is: 'comparison'; comparison: Comparison; amount: Amount }
  | { is: 'over limit'; start: number; end: number };

/** The shapes that only a limit can have: a comparison or `OL`. */
export function parseOneEnded(reader: Reader): Parsed<OneEnded> | undefined {
  const first = reader.next;
  if (!first) return undefined;
  if (reader.take('OL')) return { value: { is: 'over limit', start: first.start, end: first.end } };
  const slip = ['ol', 'o.l', 'o.l.', 'oL', 'Ol', '0L', '0l'].includes(first.text);
  if (slip) return overLimitSlip(reader.text, first);
  for (const [written, comparison] of Object.entries(comparisons)) {
    if (!reader.takePhrase(written)) continue;
    const amount = reader.amount();
    return amount.problem ? amount : { value: { is: 'comparison', comparison, amount: amount.value } };
  }
  for (const [written, comparison] of Object.entries(otherComparisons)) {
    if (!reader.takePhrase(written)) continue;
    return limitWord(reader, first, written, comparison);
  }
  return undefined;
}

function overLimitSlip(text: string, token: Token): Parsed<OneEnded> {
  const suggestion = splice(text, token.start, token.end, 'OL');
  const message = `${quote(token.text)} is written \`OL\``;
  const detail = '`OL` (over limit) is what a meter shows when the reading is beyond its range.';
  return {
    problem: { id: 'limit-word', message, detail, help: 'Write `OL`.', start: token.start, end: token.end, suggestion },
  };
}

function limitWord(reader: Reader, first: Token, written: string, comparison: Comparison): Parsed<OneEnded> {
  const rest = reader.text.slice(reader.next?.start ?? reader.text.length);
  const before = reader.text.slice(0, first.start);
  return {
    problem: {
      id: 'limit-word',
      message: `${quote(written)} is written \`${comparison}\` in a limit`,
      detail: 'A limit with one end begins with `below`, `above`, `at most` or `at least`.',
      help: `Write \`${comparison}\` instead.`,
      start: first.start,
      end: first.end,
      suggestion: `${before}${comparison} ${rest}`,
    },
  };
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
  'more than': 'above',
  'greater than': 'above',
  'lower than': 'below',
  'higher than': 'above',
  'up to': 'at most',
  'not over': 'at most',
  under: 'below',
  over: 'above',
  max: 'at most',
  min: 'at least',
  maximum: 'at most',
  minimum: 'at least',
};
