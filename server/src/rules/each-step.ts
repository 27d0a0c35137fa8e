import type { ProcedureView } from '../analysis/view.ts';
import type { Finding } from '../base/finding.ts';
import type { Ending, Procedure } from '../model/procedure.ts';
import type { Step, StepData } from '../model/step.ts';
import type { System } from '../model/system.ts';
import { dataOf } from './step-data.ts';

/** What is wrong in a step by itself, in each way it is done. It stays found while the step is unchanged. */
export function inEachStep(
  find: (data: StepData, step: Step) => Iterable<Finding>,
): (view: ProcedureView) => Iterable<Finding> {
  const memory = new WeakMap<Step, readonly Finding[]>();
  const inStep = (step: Step) => {
    const found = dataOf(step).flatMap(data => [...find(data, step)]);
    memory.set(step, found);
    return found;
  };
  return function* (view) {
    for (const step of view.procedure.steps.values()) yield* memory.get(step) ?? inStep(step);
  };
}

/**
 * Everything beside a step that its readings depend on. The same object is given for as long as none of it changes, so
 * what was worked out for a step in a context can be kept.
 */
export interface Context {
  readonly cases: readonly On[];
  readonly meter: Procedure['meter'];
}

/** One system in one variant. */
export interface On {
  readonly system: System;
  readonly variant: string;
  /** False while a part of the system's file is not understood: what is named may stand just there. */
  readonly isWhole: boolean;
}

export function contextOf({ cases: all, procedure: { meter } }: ProcedureView): Context {
  // The cases themselves would hold on to a procedure that is long outdated.
  const cases = all.map(({ view, system, variant }) => ({ system, variant, isWhole: view.tree.problems.length === 0 }));
  const key = JSON.stringify(meter);
  const owner = cases[0]?.system ?? nowhere;
  const known = contexts.get(owner) ?? [];
  const same = known.find(c => c.key === key && isSame(c.context.cases, cases));
  if (same) return same.context;
  const context = { cases, meter };
  contexts.set(owner, [...known, { key, context }]);
  return context;
}

const nowhere = {};
const contexts = new WeakMap<object, { key: string; context: Context }[]>();

function isSame(a: readonly On[], b: readonly On[]): boolean {
  const isEqual = (one: On, other: On | undefined) =>
    one.system === other?.system && one.variant === other.variant && one.isWhole === other.isWhole;
  return a.length === b.length && a.every((one, i) => isEqual(one, b[i]));
}

/** Keeps what was worked out for a step or an ending while neither it nor its context changes. */
export function inContext<T extends Step | Ending, R>(
  work: (thing: T, context: Context) => R,
): (thing: T, context: Context) => R {
  const memory = new WeakMap<T, { context: Context; result: R }>();
  return (thing, context) => {
    const before = memory.get(thing);
    if (before?.context === context) return before.result;
    const result = work(thing, context);
    memory.set(thing, { context, result });
    return result;
  };
}
