/** What holds at one moment: the state of every condition and part with states, what is apart, and what stays on from before. */
export interface Situation {
  /** Condition or part name to its state; every name of the system in this variant has one. */
  readonly states: ReadonlyMap<string, string>;
  /** Connectors, and parts whose plug is off or that are out of their socket. */
  readonly apart: ReadonlySet<string>;
  /** Relays and outputs that are on only because they were on before: what holds now would not turn them on. */
  readonly held: ReadonlySet<string>;
  /** Equal situations have equal keys. */
  readonly key: string;
}

export function situation(
  states: ReadonlyMap<string, string>,
  apart: ReadonlySet<string>,
  held: ReadonlySet<string> = nothing,
): Situation {
  let key = '';
  for (const [name, state] of states) key += `${name}=${state};`;
  key += `|${[...apart].sort().join(';')}`;
  if (held.size > 0) key += `|${[...held].sort().join(';')}`;
  return { states, apart, held, key };
}

/** The state of a name, or none where it has no state. */
export function stateOf(situation: Situation, name: string): readonly string[] {
  const state = situation.states.get(name);
  return state === undefined ? [] : [state];
}

const nothing: ReadonlySet<string> = new Set();
