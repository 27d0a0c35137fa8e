import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseColour } from '../../server/src/base/colour.ts';
import { parseAccuracy } from '../../server/src/base/quantity/accuracy.ts';
import { type Dimension, dimensionFacts } from '../../server/src/base/quantity/dimension.ts';
import { formatQuantity, formatRange } from '../../server/src/base/quantity/format.ts';
import { parseLimit } from '../../server/src/base/quantity/limit.ts';
import type { Parsed } from '../../server/src/base/quantity/problem.ts';
import { parseQuantity } from '../../server/src/base/quantity/quantity.ts';
import { parseRanged } from '../../server/src/base/quantity/ranged-text.ts';
import { unitsOf } from '../../server/src/base/quantity/units.ts';
import { parseWireSize } from '../../server/src/base/quantity/wire-size.ts';

const dimensions = Object.keys(dimensionFacts) as Dimension[];
const dimension = fc.constantFrom(...dimensions);

/** Text that is nearly a quantity: the pieces of the notation in any order, with slips among them. */
const pieces = [
  '12.6',
  '4,7',
  '1,234',
  '0',
  '-5',
  '4k7',
  ' ',
  ' ',
  ' ',
  'V',
  'mv',
  'MV',
  'kΩ',
  'ohm',
  'Ohms',
  '%',
  '°C',
  'K',
];
const marks = [
  '..',
  '...',
  '–',
  '-',
  'to',
  '±',
  '+',
  '+/-',
  '/',
  '(',
  ')',
  '<',
  '>=',
  'at most',
  'above',
  'max',
  'OL',
  'nominal',
];
const others = [
  'mm²',
  'AWG',
  '2/0',
  'yellow',
  '/',
  'YE',
  'blakc',
  'between',
  'and',
  'min',
  '😀',
  '`',
  '\n',
  '∞',
  '.',
  ',',
];
const nearly = fc.array(fc.constantFrom(...pieces, ...marks, ...others), { maxLength: 9 }).map(parts => parts.join(''));
const text = fc.oneof(
  fc.string({ unit: 'binary' }),
  nearly,
  nearly.map(t => t.replaceAll(' ', '')),
);

const parsers = fc.oneof(
  dimension.map(expected => ({ parse: (t: string): Parsed<unknown> => parseQuantity(t, expected) })),
  dimension.map(expected => ({ parse: (t: string): Parsed<unknown> => parseRanged(t, expected) })),
  fc.option(dimension, { nil: undefined }).map(expected => ({ parse: (t: string) => parseLimit(t, expected) })),
  fc.constant({ parse: parseWireSize }),
  fc.constant({ parse: parseAccuracy }),
  fc.constant({ parse: parseColour }),
);

const runs = { numRuns: 3000 };

describe('whatever is typed', () => {
  test('there is a value or one problem inside the text', () => {
    fc.assert(
      fc.property(text, parsers, (written, { parse }) => {
        const { value, problem } = parse(written);
        expect(value === undefined).toBe(problem !== undefined);
        if (!problem) return;
        expect(problem.start).toBeGreaterThanOrEqual(0);
        expect(problem.end).toBeLessThanOrEqual(written.length);
        if (written !== '') expect(problem.end).toBeGreaterThan(problem.start);
      }),
      runs,
    );
  });

  test('a suggestion can be read', () => {
    fc.assert(
      fc.property(nearly, parsers, (written, { parse }) => {
        const suggestion = parse(written).problem?.suggestion;
        if (suggestion !== undefined) expect(parse(suggestion).problem).toBeUndefined();
      }),
      runs,
    );
  });

  test('a message is one short line in product language', () => {
    fc.assert(
      fc.property(text, parsers, (written, { parse }) => {
        const { problem } = parse(written);
        if (!problem) return;
        expect(Array.from(problem.message).length).toBeLessThanOrEqual(90);
        expect(problem.message).not.toMatch(/\n|\.$|invalid|illegal|please|NaN|undefined/);
        expect(`${problem.detail}${problem.help}`).not.toMatch(/NaN|null|\[object/);
      }),
      runs,
    );
  });

  test('the ends of a value are finite and in order', () => {
    fc.assert(
      fc.property(nearly, dimension, (written, expected) => {
        const { value } = parseRanged(written, expected);
        if (!value) return;
        expect([value.low, value.nominal, value.high].every(Number.isFinite)).toBe(true);
        expect(value.low).toBeLessThanOrEqual(value.nominal);
        expect(value.nominal).toBeLessThanOrEqual(value.high);
      }),
      runs,
    );
  });
});

/** Values from a billionth to a billion, in either direction, where the dimension allows it. */
const magnitude = fc
  .tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -6, max: 8 }), fc.boolean())
  .map(([mantissa, exponent, negative]) => (negative ? -1 : 1) * mantissa * 10 ** exponent);

function possible(value: number, of: Dimension): number {
  return dimensionFacts[of].floor === undefined ? value : Math.abs(value);
}

describe('written and read again', () => {
  test('a value stays within the rounding', () => {
    fc.assert(
      fc.property(magnitude, dimension, fc.integer({ min: 2, max: 8 }), (any, of, digits) => {
        const value = possible(any, of);
        const read = parseQuantity(formatQuantity(value, of, { digits }), of);
        const step = 10 ** (1 - digits);
        expect(Math.abs((read.value?.value ?? Number.NaN) - value)).toBeLessThanOrEqual(Math.abs(value) * step);
      }),
      runs,
    );
  });

  test('a range rounded outward contains the true one, one rounded inward lies in it', () => {
    fc.assert(
      fc.property(magnitude, magnitude, dimension, (one, other, of) => {
        const [low = 0, high = 0] = [possible(one, of), possible(other, of)].sort((a, b) => a - b);
        const slack = 1e-8 * Math.max(Math.abs(low), Math.abs(high));
        const outward = parseRanged(formatRange(low, high, of, 'outward'), of).value;
        expect(outward?.low).toBeLessThanOrEqual(low + slack);
        expect(outward?.high).toBeGreaterThanOrEqual(high - slack);
        if (high - low <= slack) return;
        const inward = parseRanged(formatRange(low, high, of, 'inward'), of).value;
        expect(inward?.low).toBeGreaterThanOrEqual(low - slack);
        expect(inward?.high).toBeLessThanOrEqual(high + slack);
      }),
      runs,
    );
  });

  test('no floating-point residue is shown', () => {
    fc.assert(
      fc.property(magnitude, dimension, (any, of) => {
        const [number = ''] = formatQuantity(possible(any, of), of).split(' ');
        if (!number.includes('.')) return;
        expect(number.replace(/[^\d]/g, '').replace(/^0+/, '').length).toBeLessThanOrEqual(4);
      }),
      runs,
    );
  });

  test.each(dimensions)('every spelling of a unit of %s is read', of => {
    for (const unit of unitsOf(of)) {
      for (const spelling of unit.spellings) {
        expect(parseQuantity(`300 ${spelling}`, of), spelling).toEqual(parseQuantity(`300 ${unit.symbol}`, of));
      }
    }
  });
});
