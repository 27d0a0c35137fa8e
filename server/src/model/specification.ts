import type { Specified } from './specified.ts';
import type { StepData } from './step.ts';
import type { Specification, SpecificationRow, System } from './system.ts';

/** What the author wrote for a step, in its own `limits` or in the row that it names. */
export function specifiedAt({ action }: StepData, system: System | undefined): Specified | undefined {
  if (action.verb !== 'measure' && action.verb !== 'read') return undefined;
  if (action.limits || action.verb === 'read' || !action.specification) return action.limits;
  return system && rowOf(system, action.specification.text)?.row.limits;
}

/** The row that a step names as its specification, `keypad-ohms/on`, with its table. */
export function rowOf(system: System, text: string): { table: Specification; row: SpecificationRow } | undefined {
  const cut = text.lastIndexOf('/');
  const table = cut < 0 ? undefined : system.specifications.get(text.slice(0, cut));
  const row = table?.rows.get(text.slice(cut + 1));
  return table && row && { table, row };
}
