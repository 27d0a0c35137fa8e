import { parseLimit } from '../base/quantity/limit.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import type { Test, TestPart } from '../model/common.ts';

/** Three-valued: undefined where it cannot be told. */
export type Verdict = boolean | undefined;

/**
 * Whether a test of conditions holds. `stateOf` gives the state of a name, several where it is not decided, or none where the
 * name has no state.
 */
export function holds(test: Test, stateOf: (name: string) => readonly string[]): Verdict {
  let verdict: Verdict = false;
  for (const parts of test) {
    const one = allHold(parts, stateOf);
    if (one === true) return true;
    if (one === undefined) verdict = undefined;
  }
  return verdict;
}

/** Ends at the first that does not hold: a state may cost a reading. */
function allHold(parts: readonly TestPart[], stateOf: (name: string) => readonly string[]): Verdict {
  let verdict: Verdict = true;
  for (const part of parts) {
    const one = partHolds(part, stateOf);
    if (one === false) return false;
    if (one === undefined) verdict = undefined;
  }
  return verdict;
}

function partHolds(part: TestPart, stateOf: (name: string) => readonly string[]): Verdict {
  const states = stateOf(part.name.text);
  const meets = states.map(state => part.states.some(wanted => matches(wanted.text, state)));
  if (meets.every(m => m) && meets.length > 0) return true;
  return meets.some(m => m) ? undefined : false;
}

/** A named state, or for a condition with a number that number or a limit such as `> 80 °C`. */
function matches(wanted: string, state: string): boolean {
  if (wanted === state) return true;
  if (!/^\W*\d/.test(state)) return false;
  const one = parseQuantity(wanted).value;
  if (one) return parseQuantity(state, one.dimension).value?.value === one.value;
  const limit = parseLimit(wanted).value;
  const number = limit && parseQuantity(state, limit.dimension).value;
  if (!limit || !number) return false;
  const above = limit.lowOpen ? number.value > limit.low : number.value >= limit.low;
  return above && (limit.highOpen ? number.value < limit.high : number.value <= limit.high);
}

export function all(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes(false)) return false;
  return verdicts.includes(undefined) ? undefined : true;
}

export function any(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes(true)) return true;
  return verdicts.includes(undefined) ? undefined : false;
}
