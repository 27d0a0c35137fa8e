import { variantsInWords } from '../analysis/readings.ts';
import type { Case, ProcedureView } from '../analysis/view.ts';
import type { Place } from '../base/place.ts';
import { existsIn } from '../model/common.ts';
import { type Step, stepIn } from '../model/step.ts';
import type { Stretch } from './project.ts';
import { rangesByVariant } from './ranges.ts';

/** The circuit's own range, beside a limit. */
export interface Hint {
  readonly offset: number;
  readonly text: string;
}

/** One hint for each limit in the stretch; only the steps in it are computed. */
export function inlayHints(view: ProcedureView, within: Stretch): Hint[] {
  return [...view.procedure.steps.values()].flatMap(step => {
    const { start, end } = view.tree.absolute(step.entry.span);
    return end < within.start || start > within.end ? [] : hintsIn(view, step, within);
  });
}

/** A variant may have limits of its own; they stand at another place. */
function hintsIn(view: ProcedureView, step: Step, within: Stretch): Hint[] {
  const places = new Map<number, Case[]>();
  for (const one of view.cases.filter(({ variant }) => existsIn(step, variant))) {
    const place = limitOf(step, one.variant);
    if (!place) continue;
    const { end } = view.tree.absolute(place.span);
    places.set(end, [...(places.get(end) ?? []), one]);
  }
  return [...places]
    .filter(([offset]) => within.start <= offset && offset <= within.end)
    .map(([offset, cases]) => ({ offset, text: hintFor(view, step, cases) }))
    .filter(({ text }) => text !== '');
}

function limitOf(step: Step, variant: string): Place | undefined {
  const { action } = stepIn(step, variant);
  if (action.verb === 'read') return action.limits?.place;
  return action.verb === 'measure' ? (action.limits?.place ?? action.specification?.place) : undefined;
}

const mostRanges = 3;

function hintFor(view: ProcedureView, step: Step, cases: readonly Case[]): string {
  const ranges = rangesByVariant(view, step, cases).map(range =>
    [variantsInWords(range, cases), range.words].filter(text => text !== '').join(' '),
  );
  if (ranges.length === 0) return '';
  return `circuit: ${ranges.slice(0, mostRanges).join(' · ')}${ranges.length > mostRanges ? ' · …' : ''}`;
}
