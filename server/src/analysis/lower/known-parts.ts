import type { NodeId } from '../../circuit/network.ts';
import type { Part, PartData } from '../../model/parts.ts';
import { type Situation, stateOf } from '../situation.ts';
import { partElements } from './part-elements.ts';
import type { PartElements, Surroundings } from './surroundings.ts';
import type { Wiring } from './wiring.ts';

/** What a part asked of its surroundings, and what it made of the answers. */
interface Known {
  readonly states: ReadonlyMap<string, string>;
  readonly on: ReadonlyMap<string, boolean>;
  readonly found: PartElements;
}

/** Kept for each part; a part with more states than this is made anew for the rarest ones. */
const mostKept = 8;

/**
 * The elements of parts in one wiring. A part that is told the same again is the same elements again, so that the networks of many
 * situations share nearly all of theirs; nodes inside a part keep their numbers.
 */
export class KnownParts {
  readonly #known = new Map<string, Known[]>();
  readonly #inside = new Map<string, NodeId>();
  readonly #wiring: Wiring;

  constructor(wiring: Wiring) {
    this.#wiring = wiring;
  }

  get nodeCount(): number {
    return this.#wiring.nodeCount + this.#inside.size;
  }

  elements(part: Part, data: PartData, situation: Situation, isOn: (name: string) => boolean): PartElements {
    let known = this.#known.get(part.id);
    if (!known) {
      known = [];
      this.#known.set(part.id, known);
    }
    const before = known.find(one => isSame(one, situation, isOn));
    if (before) return before.found;
    const fresh = this.#make(part, data, situation, isOn);
    if (known.length >= mostKept) known.shift();
    known.push(fresh);
    return fresh.found;
  }

  #make(part: Part, data: PartData, situation: Situation, isOn: (name: string) => boolean): Known {
    const { system, variant, terminals } = this.#wiring;
    const states = new Map<string, string>();
    const on = new Map<string, boolean>();
    let inside = 0;
    const around: Surroundings = {
      variant,
      temperatureC: system.temperatureC,
      stateOf: name => {
        const now = stateOf(situation, name);
        states.set(name, now[0] ?? '');
        return now;
      },
      numberOf: name => system.conditions.get(name)?.number,
      isOn: name => {
        const now = isOn(name);
        on.set(name, now);
        return now;
      },
      node: terminal => terminals.get(`${part.id}.${terminal}`)?.own,
      fresh: () => this.#nodeInside(part.id, inside++),
    };
    return { found: partElements(part.id, data, around), states, on };
  }

  #nodeInside(part: string, which: number): NodeId {
    const name = `${part}#${which}`;
    const known = this.#inside.get(name);
    if (known !== undefined) return known;
    const fresh = this.nodeCount;
    this.#inside.set(name, fresh);
    return fresh;
  }
}

function isSame({ states, on }: Known, situation: Situation, isOn: (name: string) => boolean): boolean {
  for (const [name, state] of states) if ((situation.states.get(name) ?? '') !== state) return false;
  for (const [name, was] of on) if (isOn(name) !== was) return false;
  return true;
}
