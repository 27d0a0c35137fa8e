import type { Ending, EndingData } from '../model/procedure.ts';
import type { Step, StepData } from '../model/step.ts';

/** What a step says at first, then what it says in each variant that replaces something. */
export function dataOf(step: Step): readonly StepData[];
export function dataOf(ending: Ending): readonly EndingData[];
export function dataOf(thing: Step | Ending): readonly (StepData | EndingData)[] {
  return [thing.data, ...thing.byVariant.values()];
}
