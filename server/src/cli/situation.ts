import type { Circuit } from '../analysis/electrical.ts';
import { numberProblem, unmetNeed } from '../analysis/possible-state.ts';
import type { Situation } from '../analysis/situation.ts';
import { ownStates, partIn } from '../model/parts.ts';
import type { System } from '../model/system.ts';
import { settingIn } from './setting.ts';
import { unknown, WrongUse } from './wrong-use.ts';

export interface SituationOptions {
  /** `NAME=STATE`. */
  readonly set?: readonly string[];
  readonly disconnect?: readonly string[];
  readonly remove?: readonly string[];
}

/**
 * What holds while the meter is read: everything at rest and together but for what the options say. A name that only other
 * variants have is passed over. Throws `WrongUse` for a name or a state that the system does not have; `where` names it.
 */
export function situationOf(options: SituationOptions, system: System, circuit: Circuit, where: string): Situation {
  const { set = [], disconnect = [], remove = [] } = options;
  let now = circuit.rest;
  for (const text of set) {
    const [name, state] = settingIn(text, '--set');
    checkState(name, state, system, circuit.variant, where);
    if (now.states.has(name)) now = circuit.set(now, name, state);
  }
  const need = unmetNeed(system, now.states);
  if (need !== undefined) throw new WrongUse(need, 'set that as well');
  const parts = [...system.parts.keys()];
  const apart = [
    ...disconnect.map(name => known('connector or part', name, [...system.connectors.keys(), ...parts], where)),
    ...remove.map(name => known('part', name, parts, where)),
  ];
  return apart.length === 0 ? now : circuit.become(now, now.states, new Set(apart));
}

function known(what: string, name: string, names: readonly string[], where: string): string {
  if (!names.includes(name)) throw unknown(what, name, names, where);
  return name;
}

function checkState(name: string, state: string, system: System, variant: string, where: string): void {
  const condition = system.conditions.get(name);
  if (condition?.number) {
    const problem = numberProblem(name, state, condition.number);
    if (problem) throw new WrongUse(problem.message, problem.help);
    return;
  }
  const part = system.parts.get(name);
  const states = condition?.states.map(one => one.text) ?? (part ? ownStates(partIn(part, variant)) : []);
  if (states.length === 0) throw unknown('condition or part with states', name, settable(system, variant), where);
  if (!states.includes(state)) throw unknown('state', state, states, `\`${name}\``);
}

function settable({ conditions, parts }: System, variant: string): string[] {
  const withStates = [...parts.values()].filter(part => ownStates(partIn(part, variant)).length > 0);
  return [...conditions.keys(), ...withStates.map(part => part.id)];
}
