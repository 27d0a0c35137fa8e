import type { Case } from '../analysis/view.ts';
import type { Proof } from '../proof/prove.ts';

/** What a procedure takes on average, and where the minutes go. */
export interface TimeSpent {
  /** Minutes to an ending over all walks of hard faults, each weighted by its likelihood. */
  readonly meanMinutes: number;
  /** Its steps, the one that costs most first: how many of the mean minutes are spent there. */
  readonly steps: readonly { readonly step: string; readonly minutes: number; readonly reached: number }[];
  readonly walks: number;
}

/** Where the minutes of a procedure go in one variant. A fault that comes in by several entries counts once, by the first. */
export function timeSpent({ walks }: Proof, one: Case): TimeSpent {
  const own = walks.filter(({ of, fault, nature }) => of === one && fault && nature === 'hard');
  const once = [...new Map(own.toReversed().map(walk => [walk.fault!.id, walk])).values()];
  const weight = once.reduce((sum, { fault }) => sum + fault!.likelihood, 0) || 1;
  const at = new Map<string, { minutes: number; reached: number }>();
  for (const { fault, worst } of once) {
    const share = fault!.likelihood / weight;
    for (const { at: step, data } of worst.end.path) {
      const known = at.get(step) ?? { minutes: 0, reached: 0 };
      at.set(step, { minutes: known.minutes + share * (data.minutes ?? 0), reached: known.reached + share });
    }
  }
  const steps = [...at].map(([step, cost]) => ({ step, ...cost })).sort((a, b) => b.minutes - a.minutes);
  return { meanMinutes: steps.reduce((sum, { minutes }) => sum + minutes, 0), steps, walks: once.length };
}
