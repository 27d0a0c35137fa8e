/** What can be wrong with a written quantity. Each id states the bad thing. */
export type QuantityProblemId =
  | 'missing-value'
  | 'unreadable-number'
  | 'ambiguous-number'
  | 'missing-unit'
  | 'unknown-unit'
  | 'unit-case'
  | 'wrong-unit'
  | 'unexpected-text'
  | 'range-mark'
  | 'limit-word'
  | 'missing-end'
  | 'inverted-range'
  | 'empty-range'
  | 'nominal-outside-range'
  | 'exact-limit'
  | 'below-zero'
  | 'wide-tolerance'
  | 'negative-tolerance'
  | 'percent-of-zero'
  | 'percent-of-temperature'
  | 'unknown-wire-size'
  | 'unknown-accuracy'
  | 'unknown-colour';

/** One mistake at one token of the text; `start` and `end` are offsets into it. */
export interface QuantityProblem {
  id: QuantityProblemId;
  /** What is wrong, standing alone, at most 90 characters. */
  message: string;
  detail?: string;
  help?: string;
  start: number;
  end: number;
  /** The whole text corrected, where one correction is obvious. It is always readable itself. */
  suggestion?: string;
  /** The suggestion is only another way to write the same value, so it may be taken without asking. */
  certain?: boolean;
}

export type Parsed<T> = { value: T; problem?: undefined } | { value?: undefined; problem: QuantityProblem };

/**
 * Runs a parser and makes its suggestion trustworthy: a text with two mistakes is corrected twice, and a suggestion
 * that would still not be readable is dropped.
 */
export function parsing<T>(text: string, parse: (text: string) => Parsed<T>): Parsed<T> {
  const first = parse(text);
  let next: Parsed<T> = first;
  let certain = true;
  for (let round = 0; round < 6 && next.problem?.suggestion !== undefined; round++) {
    const { suggestion } = next.problem;
    certain &&= next.problem.certain === true;
    next = parse(suggestion);
    if (!next.problem && first.problem) return { problem: { ...first.problem, suggestion, certain } };
  }
  if (!first.problem) return first;
  const { suggestion: _unreadable, certain: _lost, ...problem } = first.problem;
  return { problem };
}

/** The text with one stretch replaced. */
export function splice(text: string, start: number, end: number, replacement: string): string {
  return text.slice(0, start) + replacement + text.slice(end);
}

/** A piece of the author's text between backticks, cut so that a message keeps its length. */
export function quote(piece: string): string {
  const characters = Array.from(piece.trim().replace(/\s+/g, ' ').replaceAll('`', "'"));
  return `\`${characters.length > 24 ? `${characters.slice(0, 23).join('')}…` : characters.join('')}\``;
}
