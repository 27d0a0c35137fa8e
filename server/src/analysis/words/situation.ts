import type { Situation } from '../situation.ts';

/** What is different from rest, in words: `` `key` at run, `X12` apart ``. Empty at rest. */
export function situationInWords(now: Situation, rest: Situation): string {
  const states = [...now.states].filter(([name, state]) => rest.states.get(name) !== state);
  return [
    ...states.map(([name, state]) => `\`${name}\` at ${state}`),
    ...[...now.apart].sort().map(name => `\`${name}\` apart`),
    ...[...now.held].sort().map(name => `\`${name}\` still on from before`),
  ].join(', ');
}
