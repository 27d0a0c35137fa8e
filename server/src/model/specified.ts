import type { Limit } from '../base/quantity/limit.ts';
import type { StepData } from './step.ts';
import type { System } from './system.ts';

/** What a good system shows at a step: its own limits, else those of the row that it names as its specification. */
export function limitOf({ action }: StepData, system: System | undefined): Limit | undefined {
  if (action.verb !== 'measure' && action.verb !== 'read') return undefined;
  if (action.limits) return action.limits.limit;
  const row = action.verb === 'measure' ? action.specification : undefined;
  return row && system && rowOf(system, row.text)?.limits;
}

/** The row that a step names as its specification: `keypad-ohms/on`. */
export function rowOf(system: System, text: string) {
  const cut = text.lastIndexOf('/');
  return cut < 0 ? undefined : system.specifications.get(text.slice(0, cut))?.rows.get(text.slice(cut + 1));
}
