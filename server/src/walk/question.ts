import { type Limits, limitsOf } from '../analysis/limits.ts';
import type { Case } from '../analysis/view.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import type { Limit } from '../base/quantity/limit.ts';
import { answersOf } from '../model/meter-answers.ts';
import { ownStates, partIn } from '../model/parts.ts';
import { dimensionOf } from '../model/read-step.ts';
import type { Action, StepData } from '../model/step.ts';
import type { System } from '../model/system.ts';

/** What a step wants to be told before it leads on. */
export type Question =
  | { readonly ask: 'number'; readonly dimension: Dimension; readonly limit?: Limit; readonly limits: Limits }
  /** One of the states that scan data can show; `known` is empty where the system does not list them. */
  | { readonly ask: 'state'; readonly expected: readonly string[]; readonly known: readonly string[] }
  | { readonly ask: 'answer'; readonly answers: readonly string[]; readonly others: boolean }
  /** An instruction that leads on by itself. */
  | { readonly ask: 'nothing' };

/** What a procedure is done on. The system is absent while its file cannot be read; then the text of the procedure alone is known. */
export interface Machine {
  readonly variant: string;
  readonly system?: System;
  readonly of?: Case;
}

/** The one place from which a walk learns the limits of a step, whether they are typed or come from the circuit. */
export function questionOf(data: StepData, { variant, system, of }: Machine): Question {
  const { action, branches } = data;
  if (branches.some(b => b.match.on === 'always')) return { ask: 'nothing' };
  if (action.verb === 'read' && action.expect) {
    const expected = action.expect.map(ref => ref.text);
    return { ask: 'state', expected, known: statesOf(action, system, variant) };
  }
  const limits = limitsOf(data, of);
  const limit = limits.state === 'known' ? limits.limit : undefined;
  const dimension = dimensionAsked(data, limit);
  if (dimension) return { ask: 'number', dimension, limit: limit?.dimension === dimension ? limit : undefined, limits };
  const written = branches.flatMap(b => (b.match.on === 'answer' ? [b.key.text] : []));
  // A lamp that is dim is dim also where the step only tells lit from everything else.
  const answers = [...new Set([...written, ...(action.verb === 'measure' ? answersOf(action.measure) : [])])];
  return { ask: 'answer', answers, others: branches.some(b => b.match.on === 'otherwise') };
}

function dimensionAsked({ action, branches }: StepData, limit: Limit | undefined): Dimension | undefined {
  if (action.verb === 'measure') {
    const isHeard = action.measure === 'continuity' && branches.some(b => b.match.on === 'answer');
    return isHeard ? undefined : dimensionOf[action.measure];
  }
  if (action.verb !== 'read') return undefined;
  if (limit) return limit.dimension;
  for (const { match } of branches) if (match.on === 'limit') return match.limit.dimension;
  return undefined;
}

/** States that the datum is decoded into, or those of the condition that it follows. */
function statesOf(action: Extract<Action, { verb: 'read' }>, system: System | undefined, variant: string) {
  const part = action.module && system?.parts.get(action.module.text);
  const data = part && partIn(part, variant);
  const datum = data?.kind === 'module' && action.datum ? data.scanData.get(action.datum.text) : undefined;
  if (!datum || !system) return [];
  if (datum.states.length > 0) return datum.states.map(state => state.name.text);
  const followed = datum.follows && system.parts.get(datum.follows.text);
  if (followed) return ownStates(partIn(followed, variant));
  return (datum.follows && system.conditions.get(datum.follows.text)?.states.map(state => state.text)) ?? [];
}
