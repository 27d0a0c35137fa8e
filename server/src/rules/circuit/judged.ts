import type { MeterReading, NumberReading } from '../../analysis/electrical.ts';
import { limitAt } from '../../analysis/limits.ts';
import { readingAt, situationsAt } from '../../analysis/readings.ts';
import type { Situation } from '../../analysis/situation.ts';
import type { Case, ProcedureView } from '../../analysis/view.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import type { Related } from '../../base/finding.ts';
import type { Limit } from '../../base/quantity/limit.ts';
import { existsIn, type Place } from '../../model/common.ts';
import type { Meter } from '../../model/meter.ts';
import { rowOf } from '../../model/specification.ts';
import type { Specified } from '../../model/specified.ts';
import type { Action, Step, StepData } from '../../model/step.ts';
import { stepIn } from '../../model/step.ts';
import { inVariants } from '../wording.ts';

/** Limits, and what the circuit gives where they hold, variant by variant and situation by situation. */
export interface HeldAgainst {
  /** As the author calls what the limits belong to: a step, or `keypad-ohms/on`. */
  readonly name: string;
  /** Those of the first variant; each outcome is held against those of its own. */
  readonly limit?: Limit;
  /** The text of the limits or of the specification's name; the verb where there are none. */
  readonly place: Place;
  /** What stands there as limits, so that a fix may write others in its place. */
  readonly specified?: Specified;
  /** The row of a table that the limits come from. */
  readonly related?: readonly Related[];
  readonly meter: Meter;
  readonly cases: readonly Pick<Case, 'variant'>[];
  readonly outcomes: readonly Outcome[];
}

/** A measuring or scan step with what the circuit gives there. */
export interface Judged extends HeldAgainst {
  readonly view: ProcedureView;
  readonly step: Step;
  readonly data: StepData;
  readonly action: MeasureAction | ReadAction;
}

export type MeasureAction = Extract<Action, { verb: 'measure' }>;
export type ReadAction = Extract<Action, { verb: 'read' }>;

export interface Outcome {
  readonly one: Pick<Case, 'system' | 'variant' | 'circuit'>;
  readonly situation: Situation;
  readonly reading: MeterReading;
  readonly verdict: Verdict;
}

/** How a good system does against the limits; `unknown` without limits or without a number. */
export type Verdict = 'passes' | 'can fail' | 'fails' | 'unknown';

/** Every measuring and numeric scan step that some path reaches, once for each way it is written in some variant. */
export function judgedSteps(view: ProcedureView): readonly Judged[] {
  const before = perView.get(view);
  if (before) return before;
  const found: Judged[] = [];
  for (const step of view.procedure.steps.values()) {
    for (const [data, cases] of ways(step, view.cases)) {
      const { action } = data;
      if (action.verb === 'measure' || (action.verb === 'read' && action.limits)) {
        found.push(judge(view, step, data, action, cases));
      }
    }
  }
  perView.set(view, found);
  return found;
}

const perView = new WeakMap<ProcedureView, readonly Judged[]>();

/** What a step says, with the cases in which it says so. */
export function ways(step: Step, cases: readonly Case[]): ReadonlyMap<StepData, readonly Case[]> {
  const found = new Map<StepData, Case[]>();
  for (const one of cases) {
    if (!existsIn(step, one.variant)) continue;
    const data = stepIn(step, one.variant);
    const known = found.get(data);
    if (known) known.push(one);
    else found.set(data, [one]);
  }
  return found;
}

function judge(
  view: ProcedureView,
  step: Step,
  data: StepData,
  action: MeasureAction | ReadAction,
  cases: readonly Case[],
): Judged {
  const outcomes = cases.flatMap(one => {
    const limit = limitAt(data, one);
    return situationsAt(one, data).flatMap((situation): Outcome[] => {
      const reading = readingAt(action, one, situation);
      return reading ? [{ one, situation, reading, verdict: verdictOf(reading, limit) }] : [];
    });
  });
  const specification = action.verb === 'measure' ? action.specification : undefined;
  const row = specification && cases[0] && rowOf(cases[0].system, specification.text)?.row;
  const place = action.limits?.place ?? specification?.place ?? data.actionPlace;
  return {
    view,
    step,
    data,
    action,
    name: step.id,
    limit: limitAt(data, cases[0]),
    place,
    specified: action.limits,
    related: row?.limits && [{ place: row.limits.place, message: 'The limits stand here' }],
    meter: view.procedure.meter,
    cases: view.cases,
    outcomes,
  };
}

/** A verdict never cries wolf: `can fail` and `fails` stand on combinations that can be named. */
export function verdictOf(reading: MeterReading, limit: Limit | undefined): Verdict {
  if (!limit) return 'unknown';
  if (reading.state === 'over limit') return limit.overLimit ? 'passes' : 'fails';
  if (reading.state !== 'number' || reading.dimension !== limit.dimension) return 'unknown';
  const { low, high, attained } = reading;
  if (high < limit.low || low > limit.high) return 'fails';
  const slack = 1e-9 * Math.max(0, ...[attained.low, attained.high].filter(Number.isFinite).map(Math.abs));
  return attained.low < limit.low - slack || attained.high > limit.high + slack ? 'can fail' : 'passes';
}

/** `With `key` at run in variant `relay-fed``: where and when it is so. */
export function circumstances(outcomes: readonly Outcome[], { cases }: Pick<HeldAgainst, 'cases'>): string {
  const [first] = outcomes;
  if (!first) return '';
  const words = situationInWords(first.situation, first.one.circuit.rest) || 'everything at rest';
  const some = [...new Set(outcomes.map(o => o.one.variant))];
  const all = [...new Set(cases.map(c => c.variant))];
  return `With ${words}${inVariants(some, all)}`;
}

/** Outcomes whose readings are all numbers, the worst for the low end first. */
export function numbers(outcomes: readonly Outcome[]): readonly (Outcome & { reading: NumberReading })[] {
  return outcomes.flatMap(o => (o.reading.state === 'number' ? [{ ...o, reading: o.reading }] : []));
}
