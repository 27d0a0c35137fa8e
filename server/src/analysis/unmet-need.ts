import type { Test } from '../model/common.ts';
import type { System } from '../model/system.ts';
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

function inWords(test: Test): string {
  const alternatives = test.map(parts =>
    parts.map(({ name, states }) => `\`${name.text}\` at ${states.map(one => one.text).join(' or ')}`).join(' and '),
  );
  return alternatives.join(', or with ');
}
