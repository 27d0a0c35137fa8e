import type { Situation } from '../../analysis/situation.ts';
import { holds, type Verdict } from '../../analysis/test.ts';
import type { Case, ProcedureView } from '../../analysis/view.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import { existsIn, type Test, type TestPart } from '../../model/common.ts';
import { type Ending, type EndingData, endingIn } from '../../model/procedure.ts';
import { type Step, type StepData, stepIn } from '../../model/step.ts';
import { inVariants, joined, name } from '../wording.ts';

/** A step or an ending as it is written for some variants, with every situation in which it is reached there. */
export interface Reached<T, D> {
  readonly thing: T;
  readonly data: D;
  readonly arrivals: readonly Arrival[];
}

export interface Arrival {
  readonly one: Case;
  /** Before the instructions of the step or the ending. */
  readonly now: Situation;
  /** Behind them. */
  readonly after: Situation;
}

type ReachedStep = Reached<Step, StepData>;
type ReachedEnding = Reached<Ending, EndingData>;

/** Steps that some path reaches, once for each way in which they are written. */
export function reachedSteps(view: ProcedureView): readonly ReachedStep[] {
  return everythingReached(view).steps;
}

export function reachedEndings(view: ProcedureView): readonly ReachedEnding[] {
  return everythingReached(view).endings;
}

/** Both, for what they have in common. */
export function reached(view: ProcedureView): readonly (ReachedStep | ReachedEnding)[] {
  const { steps, endings } = everythingReached(view);
  return [...steps, ...endings];
}

/** `` With `key` at run in variant `relay-fed` ``: the first of the situations, and the variants of all. */
export function circumstances(arrivals: readonly Pick<Arrival, 'one' | 'now'>[], view: ProcedureView): string {
  const [first] = arrivals;
  if (!first) return '';
  const words = situationInWords(first.now, first.one.circuit.rest) || 'everything at rest';
  const some = [...new Set(arrivals.map(a => a.one.variant))];
  return `With ${words}${inVariants(some, [...new Set(view.cases.map(c => c.variant))])}`;
}

/** The first part of a test that certainly does not hold; none where a name has no state of its own. */
export function failingPart(test: Test, now: Situation): TestPart | undefined {
  const isKnown = test.flat().every(part => now.states.has(part.name.text));
  if (!isKnown || verdict(test, now) !== false) return undefined;
  return test[0]?.find(part => verdict([[part]], now) === false);
}

/** `` `key` at run or start ``. */
export function needInWords({ name: { text }, states }: TestPart): string {
  return `${name(text)} at ${joined(
    states.map(s => s.text),
    'or',
  )}`;
}

function verdict(test: Test, now: Situation): Verdict {
  return holds(test, id => {
    const state = now.states.get(id);
    return state === undefined ? [] : [state];
  });
}

interface Everything {
  readonly steps: readonly ReachedStep[];
  readonly endings: readonly ReachedEnding[];
}

const perView = new WeakMap<ProcedureView, Everything>();

function everythingReached(view: ProcedureView): Everything {
  const before = perView.get(view);
  if (before) return before;
  const { steps, endings } = view.procedure;
  const found: Everything = {
    steps: [...steps.values()].flatMap(step => ways(view, step, stepIn, one => one.flow.arriving(step.id))),
    endings: [...endings.values()].flatMap(end => ways(view, end, endingIn, one => one.flow.atEnding(end.id))),
  };
  perView.set(view, found);
  return found;
}

function ways<T extends Step | Ending, D extends StepData | EndingData>(
  view: ProcedureView,
  thing: T,
  dataIn: (thing: T, variant: string) => D,
  arriving: (one: Case) => readonly Situation[],
): readonly Reached<T, D>[] {
  const found = new Map<D, Arrival[]>();
  for (const one of view.cases) {
    if (!existsIn(thing, one.variant)) continue;
    const data = dataIn(thing, one.variant);
    const known = found.get(data) ?? [];
    found.set(data, known);
    for (const now of arriving(one)) known.push({ one, now, after: one.after(data, now) });
  }
  return [...found].flatMap(([data, arrivals]) => (arrivals.length > 0 ? [{ thing, data, arrivals }] : []));
}
