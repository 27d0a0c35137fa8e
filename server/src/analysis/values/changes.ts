import type { Test } from '../../model/common.ts';
import { ownStates, partIn } from '../../model/parts.ts';
import { entriesOf } from '../../model/reader.ts';
import type { Condition, System } from '../../model/system.ts';
import type { Circuit } from '../electrical.ts';
import type { Situation } from '../situation.ts';
import { holds } from '../test.ts';
import type { StateOf } from './table.ts';

/** One state changed, with the situation that it makes; that is only worked out when somebody asks. */
export interface Change {
  /** The state itself, and behind it what it cannot be had without. */
  readonly states: readonly StateOf[];
  readonly situation: Situation;
}

/** Every state of every condition, and of every part with states, that does not hold yet: one at a time, in the order of the file. */
export function changesFrom(base: Situation, system: System, circuit: Circuit): Change[] {
  return [...base.states].flatMap(([name, now]) =>
    statesOf(name, system, circuit.variant).flatMap(state =>
      state === now ? [] : changed(base, name, state, system, circuit),
    ),
  );
}

/** What the situation becomes when these states are set; a name that it does not have is passed over. */
export function withStates(base: Situation, states: readonly StateOf[], circuit: Circuit): Situation {
  const known = states.filter(({ name }) => base.states.has(name));
  const after = new Map([...base.states, ...known.map(({ name, state }) => [name, state] as const)]);
  return circuit.become(base, after, base.apart);
}

/** A number is looked at where it ends; in between it may do anything. */
function statesOf(name: string, system: System, variant: string): readonly string[] {
  const condition = system.conditions.get(name);
  if (condition?.number) return endsOf(condition);
  if (condition) return condition.states.map(state => state.text);
  const part = system.parts.get(name);
  return part ? ownStates(partIn(part, variant)) : [];
}

/** As the author wrote them, with their unit. */
function endsOf({ entry }: Condition): string[] {
  return ['from', 'to'].flatMap(key => {
    const value = entriesOf(entry.value).find(one => one.key.text === key)?.value;
    return value?.kind === 'scalar' ? [value.text] : [];
  });
}

function changed(base: Situation, name: string, state: string, system: System, circuit: Circuit): Change {
  const own = { name, state };
  const test = system.conditions.get(name)?.needs.get(state);
  const needed = test && holds(test, other => [base.states.get(other) ?? []].flat()) === false ? firstWay(test) : [];
  const states = [own, ...needed.filter(one => base.states.get(one.name) !== one.state)];
  let made: Situation | undefined;
  return {
    states,
    get situation() {
      made ??= withStates(base, states, circuit);
      return made;
    },
  };
}

/** The first of the ways in which a test holds. */
function firstWay(test: Test): StateOf[] {
  return (test[0] ?? []).flatMap(({ name, states: [first] }) =>
    first ? [{ name: name.text, state: first.text }] : [],
  );
}
