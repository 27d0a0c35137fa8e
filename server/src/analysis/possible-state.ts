import { formatRange } from '../base/quantity/format.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import type { Test } from '../model/common.ts';
import type { ConditionNumber, System } from '../model/system.ts';
import { holds } from './test.ts';

/** A state that the machine can only be in while others hold is not to be had without them: which one and what it needs, as a message. */
export function unmetNeed({ conditions }: System, states: ReadonlyMap<string, string>): string | undefined {
  for (const { id, needs } of conditions.values()) {
    const state = states.get(id) ?? '';
    const test = needs.get(state);
    if (test && holds(test, name => [states.get(name) ?? []].flat()) === false)
      return `\`${id}\` can only be ${state} with ${inWords(test)}`;
  }
  return undefined;
}

/** Why a condition cannot be at a number; undefined where it can. */
export function numberProblem(
  name: string,
  state: string,
  { from, to, dimension }: ConditionNumber,
): { readonly message: string; readonly help?: string } | undefined {
  const { value, problem } = parseQuantity(state, dimension);
  if (problem) return problem;
  if (value.value >= from && value.value <= to) return undefined;
  return {
    message: `\`${name}\` cannot be at ${state}`,
    help: `the system file gives it ${formatRange(from, to, dimension)}`,
  };
}

function inWords(test: Test): string {
  const alternatives = test.map(parts =>
    parts.map(({ name, states }) => `\`${name.text}\` at ${states.map(one => one.text).join(' or ')}`).join(' and '),
  );
  return alternatives.join(', or with ');
}
