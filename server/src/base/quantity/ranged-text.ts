import type { Ranged } from '../ranged.ts';
import { tidy } from './decimal.ts';
import { type Dimension, dimensionFacts } from './dimension.ts';
import { type Measured, measure, toBaseDifference } from './measure.ts';
import { type Parsed, parsing } from './problem.ts';
import {
  emptyRange,
  invertedRange,
  negativeTolerance,
  noLimitHere,
  nominalOutside,
  percentOfTemperature,
  percentOfZero,
  toleranceUnit,
  wideTolerance,
} from './range-problems.ts';
import type { Amount } from './reader.ts';
import type { Token } from './scan.ts';
import { parseShape, type Shape } from './shape.ts';
import { unitsSpelled } from './units.ts';

/** A value with the ends it may take, in base units. */
export interface RangedQuantity extends Ranged {
  readonly dimension: Dimension;
}

/**
 * Reads a value with its tolerance: `12.6 V`, `12.6 V ± 0.4 V`, `4.7 kΩ ± 5 %`, `4.7 kΩ +10 % / -5 %`,
 * `4.71 V .. 4.93 V` (nominal in the middle) and `12.6 V (9 V .. 16 V)` (nominal first).
 */
export function parseRanged(text: string, expected: Dimension): Parsed<RangedQuantity> {
  return parsing(text, candidate => {
    const shape = parseShape(candidate);
    return shape.problem ? shape : rangedOf(candidate, shape.value, expected);
  });
}

/** The ends of every shape that has two, or one value for both. Also used for limits. */
export function rangedOf(text: string, shape: Shape, expected?: Dimension): Parsed<RangedQuantity> {
  switch (shape.is) {
    case 'one': {
      const measured = measure(text, shape.amount, expected);
      return measured.problem ? measured : exactly(measured.value);
    }
    case 'range':
      return fromRange(text, shape.low, shape.high, expected);
    case 'nominal in range':
      return fromNominalInRange(text, shape, expected);
    case 'tolerance':
      return fromTolerance(text, shape, expected);
    default:
      return noLimitHere(text, shape);
  }
}

function exactly({ value, unit }: Measured): Parsed<RangedQuantity> {
  return { value: { low: value, nominal: value, high: value, dimension: unit.dimension } };
}

function fromRange(text: string, low: Amount, high: Amount, expected?: Dimension): Parsed<RangedQuantity> {
  const from = measure(text, low, expected, high.unit);
  if (from.problem) return from;
  const to = measure(text, high, from.value.unit.dimension);
  if (to.problem) return to;
  const [lowest, highest] = [from.value.value, to.value.value];
  if (lowest > highest) return invertedRange(text, low, high);
  if (lowest === highest) return emptyRange(text, low, high);
  const nominal = tidy((lowest + highest) / 2);
  return { value: { low: lowest, nominal, high: highest, dimension: to.value.unit.dimension } };
}

function fromNominalInRange(
  text: string,
  shape: Shape & { is: 'nominal in range' },
  expected?: Dimension,
): Parsed<RangedQuantity> {
  const nominal = measure(text, shape.nominal, expected, shape.high.unit);
  if (nominal.problem) return nominal;
  const range = fromRange(text, shape.low, shape.high, nominal.value.unit.dimension);
  if (range.problem) return range;
  const { low, high } = range.value;
  if (nominal.value.value < low || nominal.value.value > high) return nominalOutside(text, shape);
  return { value: { ...range.value, nominal: nominal.value.value } };
}

function fromTolerance(text: string, shape: Shape & { is: 'tolerance' }, expected?: Dimension): Parsed<RangedQuantity> {
  const { plus, minus } = shape;
  const lent = [plus.unit, minus.unit].find(unit => unit && !isShare(unit.text));
  const nominal = measure(text, shape.nominal, expected, lent);
  if (nominal.problem) return nominal;
  const up = deviation(text, plus, minus, nominal.value, shape.nominal);
  if (up.problem) return up;
  const down = deviation(text, minus, plus, nominal.value, shape.nominal);
  if (down.problem) return down;
  const { value, unit } = nominal.value;
  if (up.value < 0 || down.value > 0) return negativeTolerance(text, up.value < 0 ? plus : minus);
  const low = tidy(value + down.value);
  const floor = dimensionFacts[unit.dimension].floor;
  if (floor !== undefined && low < floor) return wideTolerance(text, minus);
  return { value: { low, nominal: value, high: tidy(value + up.value), dimension: unit.dimension } };
}

/** One side of a tolerance as a signed difference in base units. `other` may carry the unit of both sides. */
function deviation(text: string, side: Amount, other: Amount, nominal: Measured, of: Amount): Parsed<number> {
  const unit = side.unit ?? other.unit;
  if (!unit) return toleranceUnit(text, side, nominal.unit.symbol);
  if (!isShare(unit.text) || nominal.unit.dimension === 'ratio') {
    return absoluteDeviation(text, { ...side, unit }, nominal);
  }
  const share = measure(text, { ...side, unit }, 'ratio');
  if (share.problem) return share;
  if (nominal.unit.dimension === 'temperature') return percentOfTemperature(text, side);
  if (nominal.value === 0 && share.value.value !== 0) return percentOfZero(text, side, of);
  if (Math.abs(share.value.value) > 1) return wideTolerance(text, side);
  return { value: Math.abs(nominal.value) * share.value.value };
}

/** Kelvin are welcome as the tolerance of any temperature, and a difference knows no zero of the scale. */
function absoluteDeviation(text: string, side: Amount & { unit: Token }, nominal: Measured): Parsed<number> {
  const { dimension } = nominal.unit;
  const degrees = unitsSpelled(side.unit.text).find(
    unit => unit.dimension === dimension && dimension === 'temperature',
  );
  if (degrees) return { value: toBaseDifference(side.value, degrees) };
  const magnitude = measure(text, { ...side, value: Math.abs(side.value) }, dimension);
  return magnitude.problem ? magnitude : { value: Math.sign(side.value) * magnitude.value.value };
}

function isShare(spelling: string): boolean {
  return unitsSpelled(spelling).some(unit => unit.dimension === 'ratio');
}
