import type { Comparison } from './comparison.ts';
import type { Dimension } from './dimension.ts';
import { formatQuantity } from './format.ts';
import { measure } from './measure.ts';
import { type Parsed, parsing, quote } from './problem.ts';
import { rangedOf } from './ranged-text.ts';
import type { Amount } from './reader.ts';
import { parseShape, type Shape } from './shape.ts';

/**
 * Which readings pass, in base units. A missing end is infinite; an open end does not pass itself. `OL` alone has both
 * ends at +∞, so no number passes it. `overLimit`: the reading `OL`, a value beyond the meter, passes.
 */
export interface Limit {
  readonly low: number;
  readonly high: number;
  readonly lowOpen: boolean;
  readonly highOpen: boolean;
  readonly overLimit: boolean;
  readonly dimension: Dimension;
}

/**
 * Reads a limit: `4.71 V .. 4.93 V`, `12.6 V ± 0.4 V`, `below 0.3 V` or `< 0.3 V`, `above 4.4 V` or `> 4.4 V`,
 * `at most 0.2 V` or `<= 0.2 V`, `at least 4.4 V` or `>= 4.4 V`, `OL`. The words can stand anywhere in YAML, `>` at the
 * beginning of a value cannot. Without an expected dimension the first unit decides, and `OL` means resistance.
 */
export function parseLimit(text: string, expected?: Dimension): Parsed<Limit> {
  return parsing(text, candidate => {
    const shape = parseShape(candidate);
    return shape.problem ? shape : limitOf(candidate, shape.value, expected);
  });
}

/** Writes a limit so that `parseLimit` reads the same limit, to six digits. It may stand anywhere in YAML. */
export function formatLimit({ low, high, lowOpen, highOpen, dimension }: Limit): string {
  const end = (value: number) => formatQuantity(value, dimension, { digits: 6 });
  if (low === Infinity) return 'OL';
  if (high === Infinity) return `${lowOpen ? 'above' : 'at least'} ${end(low)}`;
  if (low === -Infinity) return `${highOpen ? 'below' : 'at most'} ${end(high)}`;
  return `${end(low)} .. ${end(high)}`;
}

function limitOf(text: string, shape: Shape, expected?: Dimension): Parsed<Limit> {
  if (shape.is === 'over limit') return { value: closed(Infinity, Infinity, expected ?? 'resistance') };
  if (shape.is === 'comparison') return oneEnded(text, shape.comparison, shape.amount, expected);
  const range = rangedOf(text, shape, expected);
  if (range.problem) return range;
  const { low, high, dimension } = range.value;
  if (low === high && dimension !== 'number') return exactLimit(text, low, dimension);
  return { value: closed(low, high, dimension) };
}

function closed(low: number, high: number, dimension: Dimension): Limit {
  return { low, high, lowOpen: false, highOpen: false, overLimit: high === Infinity, dimension };
}

function oneEnded(text: string, comparison: Comparison, amount: Amount, expected?: Dimension): Parsed<Limit> {
  const measured = measure(text, amount, expected);
  if (measured.problem) return measured;
  const { value, unit } = measured.value;
  const upper = comparison === 'below' || comparison === 'at most';
  const limit = upper ? closed(-Infinity, value, unit.dimension) : closed(value, Infinity, unit.dimension);
  return { value: { ...limit, lowOpen: comparison === 'above', highOpen: comparison === 'below' } };
}

function exactLimit(text: string, value: number, dimension: Dimension): Parsed<Limit> {
  const written = text.trim();
  const start = text.indexOf(written);
  const example = dimension === 'temperature' ? '2 K' : value === 0 ? formatQuantity(0.1, dimension) : '5 %';
  return {
    problem: {
      id: 'exact-limit',
      message: `${quote(written)} is one value; a limit has room for tolerances`,
      detail: 'A reading never equals a single value exactly, so every good system would fail here.',
      help: `Write a tolerance such as \`${written} ± ${example}\`, or both ends of the range.`,
      start,
      end: start + written.length,
    },
  };
}
