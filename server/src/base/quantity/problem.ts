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
}

export type Parsed<T> = { value: T; problem?: undefined } | { value?: undefined; problem: QuantityProblem };

/**
 * Runs a parser and makes its suggestion trustworthy: a text with two mistakes is corrected twice, and a suggestion
 * that would still not be readable is dropped.
 */
export function parsing<T>(text: string, parse: (text: string) => Parsed<T>): Parsed<T> {
  const first = parse(text);
  if (first.problem?.suggestion === undefined) return first;
  let suggestion: string | undefined = first.problem.suggestion;
  for (let round = 0; round < 6 && suggestion !== undefined; round++) {
    const again: Parsed<T> = parse(suggestion);
    if (!again.problem) return { problem: { ...first.problem, suggestion } };
    suggestion = again.problem.suggestion;
  }
  const { suggestion: _unreadable, ...problem } = first.problem;
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
