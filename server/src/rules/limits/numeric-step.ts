import { limitAt } from '../../analysis/limits.ts';
import { rangeFor } from '../../analysis/meter-display.ts';
import type { ProcedureView } from '../../analysis/view.ts';
import type { Dimension } from '../../base/quantity/dimension.ts';
import type { Limit } from '../../base/quantity/limit.ts';
import { existsIn, type Place } from '../../model/common.ts';
import type { Meter, Range } from '../../model/procedure.ts';
import { dimensionOf } from '../../model/read-step.ts';
import { specifiedAt } from '../../model/specification.ts';
import { type Action, type Branch, type Step, type StepData, stepIn } from '../../model/step.ts';
import { contextOf, inContext } from '../each-step.ts';
import { dataOf } from '../step-data.ts';
import { type Region, regionOf } from './region.ts';

/** A step that branches by a number, with what each branch takes. */
export interface NumericStep {
  readonly step: Step;
  readonly data: StepData;
  readonly action: NumericAction;
  readonly dimension: Dimension;
  /** What a good system shows, from the step or its specification. */
  readonly limit?: Limit;
  /** The text of the limits, or of the specification's name. */
  readonly limitPlace?: Place;
  /** Every branch but `otherwise` whose range is known, in file order. */
  readonly taken: readonly Taken[];
  readonly otherwise?: Branch;
  /** What the meter can tell apart; absent for scan data. */
  readonly meter?: Range;
  readonly leadsOhms: number;
}

export type NumericAction = Extract<Action, { verb: 'measure' | 'read' }>;

export interface Taken {
  readonly branch: Branch;
  readonly region: Region;
}

/**
 * The steps that branch by a number, in each way they are done in some variant. Steps with a branch that could not be read
 * are left out: what is missing there may have been meant by it.
 */
export function numericSteps(view: ProcedureView): readonly NumericStep[] {
  const before = perView.get(view);
  if (before) return before;
  const context = contextOf(view);
  const list: NumericStep[] = [];
  for (const step of view.procedure.steps.values()) {
    list.push(...(isDerived(step, view) ? derivedWaysOf(step, view) : waysOf(step, context)));
  }
  perView.set(view, list);
  return list;
}

/** What is found in a step stays found while the step, its limits and the meter stay the same. */
export function inEachNumericStep<T>(find: (step: NumericStep) => Iterable<T>): (view: ProcedureView) => T[] {
  const known = new WeakMap<NumericStep, readonly T[]>();
  const inStep = (step: NumericStep) => {
    const found = [...find(step)];
    known.set(step, found);
    return found;
  };
  return view => {
    const all: T[] = [];
    for (const step of numericSteps(view)) all.push(...(known.get(step) ?? inStep(step)));
    return all;
  };
}

const perView = new WeakMap<ProcedureView, readonly NumericStep[]>();

/** What a step says, with the limits that hold there, in the variants in which it exists; the same way only once. */
const waysOf = inContext((step: Step, { cases, meter }): readonly NumericStep[] => {
  const { action } = step.data;
  if (action.verb !== 'measure' && action.verb !== 'read') return [];
  const ways = new Ways();
  if (cases.length === 0) for (const data of dataOf(step)) ways.add(data, specifiedAt(data, undefined)?.limit);
  for (const { variant, system } of cases) {
    if (!existsIn(step, variant)) continue;
    const data = stepIn(step, variant);
    ways.add(data, specifiedAt(data, system)?.limit);
  }
  return ways.all.flatMap(([data, limit]) => numericStep(step, data, limit, meter) ?? []);
});

/** What the circuit gives may change with every other step and with the wiring, so nothing of it is kept from one view to the next. */
function derivedWaysOf(step: Step, { cases, procedure: { meter } }: ProcedureView): readonly NumericStep[] {
  const ways = new Ways();
  for (const one of cases) {
    if (!existsIn(step, one.variant)) continue;
    const data = stepIn(step, one.variant);
    ways.add(data, limitAt(data, one));
  }
  return ways.all.flatMap(([data, limit]) => numericStep(step, data, limit, meter) ?? []);
}

function isDerived(step: Step, { cases }: ProcedureView): boolean {
  return cases.some(one => specifiedAt(stepIn(step, one.variant), one.system)?.marginRatio !== undefined);
}

class Ways {
  readonly all: [StepData, Limit | undefined][] = [];

  add(data: StepData, limit: Limit | undefined): void {
    const isKnown = this.all.some(way => way[0] === data && isSame(way[1], limit));
    if (!isKnown) this.all.push([data, limit]);
  }
}

/** Limits of one row are one object; what the circuit gives is worked out anew for each variant. */
function isSame(a: Limit | undefined, b: Limit | undefined): boolean {
  if (!a || !b) return a === b;
  return a.low === b.low && a.high === b.high && a.lowOpen === b.lowOpen && a.highOpen === b.highOpen;
}

function numericStep(step: Step, data: StepData, limit: Limit | undefined, meter: Meter): NumericStep | undefined {
  const { action, branches } = data;
  if (action.verb !== 'measure' && action.verb !== 'read') return undefined;
  const dimension = action.verb === 'measure' ? dimensionOf[action.measure] : limitDimension(limit, branches);
  const isNumeric = dimension !== undefined && !(action.verb === 'read' && action.expect);
  if (!isNumeric || branches.some(b => b.match.on === 'answer' || b.match.on === 'always')) return undefined;
  const fitting = limit?.dimension === dimension ? limit : undefined;
  const taken: Taken[] = [];
  for (const branch of branches) {
    const region = regionOf(branch.match, fitting);
    if (region) taken.push({ branch, region });
  }
  return {
    step,
    data,
    action,
    dimension,
    limit: fitting,
    limitPlace: action.limits?.place ?? (action.verb === 'measure' ? action.specification?.place : undefined),
    taken,
    otherwise: branches.find(b => b.match.on === 'otherwise'),
    meter: action.verb === 'measure' ? rangeFor(dimension, meter) : undefined,
    leadsOhms: dimension === 'resistance' ? meter.resistance.leadsOhms : 0,
  };
}

function limitDimension(limit: Limit | undefined, branches: readonly Branch[]): Dimension | undefined {
  if (limit) return limit.dimension;
  for (const { match } of branches) if (match.on === 'limit') return match.limit.dimension;
  return undefined;
}
