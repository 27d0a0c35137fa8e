import type { Finding } from '../../base/finding.ts';
import type { Place, Ref } from '../../base/place.ts';
import { type Dimension, dimensionFacts } from '../../base/quantity/dimension.ts';
import { formatRange } from '../../base/quantity/format.ts';
import { type Limit, parseLimit } from '../../base/quantity/limit.ts';
import type { QuantityProblem } from '../../base/quantity/problem.ts';
import { parseQuantity } from '../../base/quantity/quantity.ts';
import type { ConditionNumber } from '../../model/system.ts';
import { name } from '../wording.ts';

/** What is wrong with a number that a condition is set to: its unit, or that the condition never is there. */
export function wrongNumber(state: Ref, condition: string, number: ConditionNumber): Finding | undefined {
  const { value, problem } = parseQuantity(state.text, number.dimension);
  if (problem) return unread(state, problem, condition, number);
  return isIn(number, value.value, value.value)
    ? undefined
    : beyond(state, `${name(condition, 40)} cannot be at ${name(state.text, 24)}`, condition, number);
}

/** The same for what a condition is held against: a number, or a limit such as `above 80 °C`. */
export function wrongLimit(state: Ref, condition: string, number: ConditionNumber): Finding | undefined {
  const one = parseQuantity(state.text, number.dimension).value?.value;
  const limit: Pick<Limit, 'low' | 'high'> | undefined = one === undefined ? undefined : { low: one, high: one };
  const { value, problem } = limit ? { value: limit, problem: undefined } : parseLimit(state.text, number.dimension);
  if (problem) return unread(state, problem, condition, number);
  return isIn(number, value.low, value.high)
    ? undefined
    : beyond(state, `${name(condition, 40)} never is ${name(state.text, 24)}`, condition, number);
}

/** Limits of another quantity than the one that is read. */
export function otherQuantity(read: string, shown: Dimension, { dimension }: Limit, place: Place): Finding {
  return {
    rule: 'wrong-unit',
    place,
    message: `${name(read, 40)} is ${dimensionFacts[shown].noun}, and these limits are not`,
    detail: `They are written as ${dimensionFacts[dimension].noun}, which no reading of it ever is.`,
    help: `Write them in ${dimensionFacts[shown].offered}.`,
  };
}

function isIn({ from, to }: ConditionNumber, low: number, high: number): boolean {
  return low <= Math.max(from, to) && high >= Math.min(from, to);
}

function unread({ place }: Ref, problem: QuantityProblem, condition: string, number: ConditionNumber): Finding {
  const { id, message, detail, help, suggestion, certain } = problem;
  const title = `Write \`${suggestion}\``;
  return {
    rule: id,
    place,
    message,
    detail: [reachOf(condition, number), detail].filter(said => said !== undefined).join(' '),
    help,
    fixes: suggestion === undefined ? [] : [{ title, edits: [{ place, text: suggestion }], preferred: certain }],
  };
}

function beyond({ place }: Ref, message: string, condition: string, number: ConditionNumber): Finding {
  return {
    rule: 'unknown-name',
    place,
    message,
    detail: reachOf(condition, number),
    help: 'Write a number between these ends, or move them in the system file.',
  };
}

function reachOf(condition: string, { from, to, dimension }: ConditionNumber): string {
  return `The system file gives ${name(condition)} ${formatRange(from, to, dimension)}.`;
}
