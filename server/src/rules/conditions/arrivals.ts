import type { Situation } from '../../analysis/situation.ts';
import { holds, type Verdict } from '../../analysis/test.ts';
import type { Case, ProcedureView } from '../../analysis/view.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import { existsIn, type Test, type TestPart } from '../../model/common.ts';
import { type Ending, type EndingData, endingIn } from '../../model/procedure.ts';
import { type Step, type StepData, stepIn } from '../../model/step.ts';
import type { Condition, System } from '../../model/system.ts';
import { inVariants, joined, name } from '../wording.ts';

/** A step or an ending as it is written for some variants, with the situations in which it is reached there. */
export interface Reached<T, D> {
  readonly thing: T;
  readonly data: D;
  readonly cases: readonly ReachedCase[];
}

interface ReachedCase {
  readonly one: Case;
  /** Before the instructions of the step or the ending; at least one. */
  readonly situations: readonly Situation[];
}

export interface Arrival {
  readonly one: Case;
  readonly now: Situation;
}

type ReachedStep = Reached<Step, StepData>;
type ReachedEnding = Reached<Ending, EndingData>;

/** Steps that some path reaches, once for each wanted way in which they are written. */
export function reachedSteps(view: ProcedureView, wanted: (data: StepData) => boolean): readonly ReachedStep[] {
  const found: ReachedStep[] = [];
  for (const step of view.procedure.steps.values()) {
    if (!isWanted(step, wanted)) continue;
    found.push(...ways(view, step, stepIn, one => one.flow.arriving(step.id), wanted));
  }
  return found;
}

/** Steps and endings, for what they have in common. */
export function everythingReached(
  view: ProcedureView,
  wanted: (data: StepData | EndingData) => boolean,
): readonly (ReachedStep | ReachedEnding)[] {
  const found: (ReachedStep | ReachedEnding)[] = [...reachedSteps(view, wanted)];
  for (const ending of view.procedure.endings.values()) {
    if (!isWanted(ending, wanted)) continue;
    found.push(...ways(view, ending, endingIn, one => one.flow.atEnding(ending.id), wanted));
  }
  return found;
}

/** Conditions of which some state is possible only while a test holds. */
export function conditionsWithNeeds(system: System): readonly Condition[] {
  const before = needy.get(system);
  if (before) return before;
  const found = [...system.conditions.values()].filter(c => c.needs.size > 0);
  needy.set(system, found);
  return found;
}

const needy = new WeakMap<System, readonly Condition[]>();

export function arrivalsAt({ cases }: Pick<Reached<unknown, unknown>, 'cases'>): readonly Arrival[] {
  return cases.flatMap(({ one, situations }) => situations.map(now => ({ one, now })));
}

/** `` With `key` at run in variant `relay-fed` ``: the first of the situations, and the variants of all. */
export function circumstances(arrivals: readonly Arrival[], view: ProcedureView): string {
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

/** Among a thousand steps few are wanted, and for the others nothing is to be made. */
function isWanted<D>(thing: { data: D; byVariant: ReadonlyMap<string, D> }, wanted: (data: D) => boolean): boolean {
  return wanted(thing.data) || (thing.byVariant.size > 0 && [...thing.byVariant.values()].some(wanted));
}

function ways<T extends Step | Ending, D extends StepData | EndingData>(
  view: ProcedureView,
  thing: T,
  dataIn: (thing: T, variant: string) => D,
  arriving: (one: Case) => readonly Situation[],
  wanted: (data: D) => boolean,
): readonly Reached<T, D>[] {
  const found: { thing: T; data: D; cases: ReachedCase[] }[] = [];
  for (const one of view.cases) {
    const data = dataIn(thing, one.variant);
    const situations = existsIn(thing, one.variant) && wanted(data) ? arriving(one) : [];
    if (situations.length === 0) continue;
    const same = found.find(way => way.data === data);
    if (same) same.cases.push({ one, situations });
    else found.push({ thing, data, cases: [{ one, situations }] });
  }
  return found;
}
