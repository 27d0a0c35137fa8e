import type { Dimension } from './dimension.ts';
import { measure } from './measure.ts';
import { type Parsed, parsing, quote } from './problem.ts';
import { parseShape, type Shape } from './shape.ts';

/** One value in the base unit of its dimension (`dimension.ts`): SI, but °C, degrees and rpm. */
export interface Quantity {
  readonly value: number;
  readonly dimension: Dimension;
}

/** Reads one value without a tolerance: `12.6 V`, `4.7 kΩ`, `4k7`, `-40 °C`, `0.75 mm²`. Without an expected dimension the unit decides. */
export function parseQuantity(text: string, expected?: Dimension): Parsed<Quantity> {
  return parsing<Quantity>(text, candidate => {
    const shape = parseShape(candidate);
    if (shape.problem) return shape;
    if (shape.value.is !== 'one') return onlyOneValue(candidate, shape.value);
    const measured = measure(candidate, shape.value.amount, expected);
    if (measured.problem) return measured;
    return { value: { value: measured.value.value, dimension: measured.value.unit.dimension } };
  });
}

function onlyOneValue(text: string, shape: Shape): Parsed<never> {
  const written = shape.is === 'tolerance' ? 'a value with a tolerance' : shape.is === 'range' ? 'a range' : 'a limit';
  return {
    problem: {
      id: 'unexpected-text',
      message: `One value is expected here, not ${written}: ${quote(text)}`,
      help: 'Write a single number with its unit, for example `12.6 V`.',
      start: 0,
      end: text.length,
    },
  };
}
