import { shiftDecimal, tidy } from './decimal.ts';
import { type Dimension, dimensionFacts } from './dimension.ts';
import type { Parsed } from './problem.ts';
import type { Amount } from './reader.ts';
import type { Token } from './scan.ts';
import { belowFloor, beyondNumbers, missingUnit, unitCase, unknownUnit, wrongUnit } from './unit-problems.ts';
import { noUnit, type Unit, unitsSpelled, unitsSpelledLike } from './units.ts';

/** An amount in base units, with the unit it was written in. */
export interface Measured {
  value: number;
  unit: Unit;
}

/** The amount in base units. `borrowed` is the unit written once for several amounts: `4.71 .. 4.93 V`. */
export function measure(text: string, amount: Amount, expected?: Dimension, borrowed?: Token): Parsed<Measured> {
  const token = amount.unit ?? borrowed;
  if (!token && expected === 'number') return { value: { value: amount.value, unit: noUnit } };
  if (!token) return missingUnit(text, amount, expected);
  const unit = resolveUnit(text, amount, token, expected);
  if (unit.problem) return unit;
  const value = toBase(amount.value, unit.value);
  if (!Number.isFinite(value)) return beyondNumbers(text, amount);
  const floor = dimensionFacts[unit.value.dimension].floor;
  if (floor !== undefined && value < floor) return belowFloor(text, amount, unit.value, floor);
  return { value: { value, unit: unit.value } };
}

export function toBase(written: number, unit: Unit): number {
  const shifted = unit.zero === 0 ? written : tidy(written - unit.zero);
  return shiftDecimal(unit.factor === 1 ? shifted : tidy(shifted * unit.factor), unit.power);
}

/** A difference in base units: the zero of a temperature scale does not count. */
export function toBaseDifference(written: number, unit: Unit): number {
  return toBase(written + unit.zero, unit);
}

/** The unit of a token, which must be one of the expected dimension. */
function resolveUnit(text: string, amount: Amount, token: Token, expected?: Dimension): Parsed<Unit> {
  const known = unitsSpelled(token.text);
  const fitting = expected ? known.find(unit => unit.dimension === expected) : known[0];
  if (fitting) return { value: fitting };
  const other = known[0];
  if (other && expected) return wrongUnit(text, amount, token, other, expected);
  const alike = unitsSpelledLike(token.text).filter(unit => !expected || unit.dimension === expected);
  return alike.length > 0 ? unitCase(text, token, alike) : unknownUnit(text, token, expected);
}
