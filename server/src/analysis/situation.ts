/** What holds at one moment: the state of every condition and part with states, and what is apart. */
export interface Situation {
  /** Condition or part name to its state; every name of the system in this variant has one. */
  readonly states: ReadonlyMap<string, string>;
  /** Connectors, and parts whose plug is off or that are out of their socket. */
  readonly apart: ReadonlySet<string>;
  /** Equal situations have equal keys. */
  readonly key: string;
}

export function situation(states: ReadonlyMap<string, string>, apart: ReadonlySet<string>): Situation {
  return { states, apart, key: `${[...states].map(([n, s]) => `${n}=${s}`).join(';')}|${[...apart].sort().join(';')}` };
}
