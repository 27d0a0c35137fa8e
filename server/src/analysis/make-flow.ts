import { existsIn } from '../model/common.ts';
import { type EndingData, endingIn, type Procedure } from '../model/procedure.ts';
import { type StepData, stepIn } from '../model/step.ts';
import type { Effect } from './effect.ts';
import type { Circuit } from './electrical.ts';
import type { Flow } from './flow.ts';
import type { Situation } from './situation.ts';

/** More situations than this at one step are not told apart. */
const mostSituations = 32;

export type Instructions = Pick<StepData, 'set' | 'connect' | 'refit'> &
  Partial<Pick<StepData, 'disconnect' | 'remove'>> &
  Partial<Pick<EndingData, 'items'>>;

/**
 * Follows every path from the start and from the entries that start elsewhere. What a step does to a situation is kept per step,
 * so that after an edit only the steps that changed are worked out again.
 */
export class FlowMaker {
  readonly #outcomes = new WeakMap<Instructions, Map<Situation, Situation>>();
  readonly #circuit: Circuit;

  constructor(circuit: Circuit) {
    this.#circuit = circuit;
  }

  make(procedure: Procedure): Flow {
    const { variant, rest } = this.#circuit;
    const arriving = new Map<string, Situation[]>();
    const atEnding = new Map<string, Situation[]>();
    let truncated = false;
    const queue: [string, Situation][] = starts(procedure).map(name => [name, rest]);
    for (let next = queue.pop(); next; next = queue.pop()) {
      const [name, now] = next;
      const step = procedure.steps.get(name);
      const ending = step ? undefined : procedure.endings.get(name);
      const thing = step ?? ending;
      if (!thing || !existsIn(thing, variant)) continue;
      const known = step ? listOf(arriving, name) : listOf(atEnding, name);
      if (known.includes(now)) continue;
      if (known.length >= mostSituations) {
        truncated = true;
        continue;
      }
      known.push(now);
      if (step) {
        const data = stepIn(step, variant);
        const after = this.after(data, now);
        for (const { target } of data.branches) if (target) queue.push([target.text, after]);
      } else if (ending) {
        const data: EndingData = endingIn(ending, variant);
        if (data.confirm) queue.push([data.confirm.text, this.after(data, now)]);
      }
    }
    return {
      arriving: name => arriving.get(name) ?? [],
      during: name => {
        const step = procedure.steps.get(name);
        if (!step) return [];
        const data = stepIn(step, variant);
        return [...new Set((arriving.get(name) ?? []).map(now => this.after(data, now)))];
      },
      atEnding: name => atEnding.get(name) ?? [],
      truncated,
    };
  }

  /** The situation after the instructions of a step or an ending. */
  after(instructions: Instructions, now: Situation): Situation {
    const known = this.#outcomes.get(instructions) ?? new Map<Situation, Situation>();
    this.#outcomes.set(instructions, known);
    const then = known.get(now) ?? follow(instructions, now, this.#circuit);
    known.set(now, then);
    return then;
  }
}

/** The step at `start` and those of entries that start elsewhere. */
export function starts(procedure: Procedure): readonly string[] {
  const names = [procedure.start, ...procedure.entries.map(e => e.start)];
  return [...new Set(names.flatMap(ref => (ref ? [ref.text] : [])))];
}

/** The settings one after the other, in the order written; then what is taken apart and fitted. What is replaced or mended is fitted again. */
export function follow(instructions: Instructions, now: Situation, circuit: Circuit, effect?: Effect): Situation {
  const { set, connect, refit, disconnect = [], remove = [], items = [] } = instructions;
  let then = now;
  for (const { name, state } of set) {
    const before = then.states.get(name.text);
    // What is set to what it is changes nothing, but for a machine whose fault may only now have come.
    if (before !== undefined && (before !== state.text || effect))
      then = circuit.set(then, name.text, state.text, effect);
  }
  if (connect.length + refit.length + items.length + disconnect.length + remove.length === 0) return then;
  const apart = new Set(now.apart);
  for (const ref of [...connect, ...refit, ...items]) apart.delete(ref.text);
  for (const ref of [...disconnect, ...remove]) apart.add(ref.text);
  const isAsBefore = apart.size === now.apart.size && [...apart].every(name => now.apart.has(name));
  return isAsBefore ? then : circuit.become(then, then.states, apart, effect);
}

function listOf(map: Map<string, Situation[]>, name: string): Situation[] {
  const known = map.get(name);
  if (known) return known;
  const fresh: Situation[] = [];
  map.set(name, fresh);
  return fresh;
}
