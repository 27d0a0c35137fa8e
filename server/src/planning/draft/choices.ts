import { type Sight, sightsIn } from '../../model/sights.ts';
import type { Bench } from '../bench.ts';

/** Something that a complaint can name, with the states that it can have on this machine. */
export interface Choice {
  readonly name: string;
  readonly title?: string;
  readonly sort: Sight['sort'];
  /** Empty for a number. */
  readonly states: readonly string[];
  /** Its state while everything is at rest. */
  readonly rest?: string;
}

/** What somebody can see the machine do: loads, outputs, scan data with states. */
export function seenOn(one: Bench): readonly Choice[] {
  const seen = sightsOf(one).filter(({ sort, states }) => states.length > 0 && sort !== 'condition' && sort !== 'part');
  return seen
    .filter(sight => isThere(sight, one))
    .map(({ name, title, sort, states }) => ({ name, title, sort, states }));
}

/** What can be set beforehand: conditions, and parts with states of their own. */
export function settableOn(one: Bench): readonly Choice[] {
  return sightsOf(one).flatMap(({ name, title, sort, states }) => {
    const rest = sort === 'condition' || sort === 'part' ? one.circuit.rest.states.get(name) : undefined;
    return rest === undefined ? [] : { name, title, sort, states, rest };
  });
}

function sightsOf({ system }: Bench): readonly Sight[] {
  return [...sightsIn(system).values()];
}

/** Sights are told over all variants. */
function isThere({ name, sort }: Sight, { circuit }: Bench): boolean {
  return sort === 'scan data' ? circuit.datumNamed(name) !== undefined : circuit.works(name, circuit.rest).length > 0;
}
