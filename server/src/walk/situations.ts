import type { Situation } from '../analysis/situation.ts';
import type { Walk } from './walk.ts';

/** What holds on the machine where a walk stands: on arrival, and after the instructions that stand there. */
export interface Arrival {
  readonly before: Situation;
  readonly after: Situation;
}

/**
 * Follows the instructions along the walk from the machine at rest, or from `first`, in which the walk began. Undefined where
 * there is no system.
 */
export function arrivalOf({ course, passed, at }: Walk, first?: Situation): Arrival | undefined {
  const { of } = course;
  if (!of) return undefined;
  let before = first ?? of.circuit.rest;
  for (const { from } of passed) before = of.after(from.data, before);
  return { before, after: at.kind === 'nowhere' ? before : of.after(at.data, before) };
}
