import { variantsInWords } from '../analysis/readings.ts';
import type { Case, FileView, ProcedureView, SystemView } from '../analysis/view.ts';
import type { Place } from '../base/place.ts';
import { existsIn } from '../model/common.ts';
import { type Step, stepIn } from '../model/step.ts';
import { derivedInWords, derivedRowInWords } from './derived-limits.ts';
import type { Stretch } from './project.ts';
import { rangesByVariant } from './ranges.ts';

/** The circuit's own range beside a limit, or what limits come to that are left to the circuit. */
export interface Hint {
  readonly offset: number;
  readonly text: string;
}

/** One hint for each limit in the stretch; only the steps in it are computed. */
export function inlayHints(view: FileView, within: Stretch): Hint[] {
  if (view.kind === 'system') return hintsOfRows(view, within);
  if (view.kind !== 'procedure') return [];
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

/** What the rows of tables come to that leave their limits to the circuit. */
function hintsOfRows(view: SystemView, within: Stretch): Hint[] {
  return [...view.system.specifications.values()].flatMap(table =>
    [...table.rows.values()].flatMap(row => {
      if (row.place.uri !== view.uri || row.limits?.marginRatio === undefined) return [];
      const { end } = view.tree.absolute(row.limits.place.span);
      if (end < within.start || end > within.end) return [];
      return [{ offset: end, text: shortened('limits', derivedRowInWords(view, table, row)) }];
    }),
  );
}

function limitOf(step: Step, variant: string): Place | undefined {
  const { action } = stepIn(step, variant);
  if (action.verb === 'read') return action.limits?.place;
  return action.verb === 'measure' ? (action.limits?.place ?? action.specification?.place) : undefined;
}

const mostRanges = 3;

function hintFor(view: ProcedureView, step: Step, cases: readonly Case[]): string {
  const derived = derivedInWords(step, cases);
  if (derived.length > 0) return shortened('limits', derived);
  const ranges = rangesByVariant(view, step, cases).map(range =>
    [variantsInWords(range, cases), range.words].filter(text => text !== '').join(' '),
  );
  return ranges.length === 0 ? '' : shortened('circuit', ranges);
}

function shortened(what: string, ranges: readonly string[]): string {
  return `${what}: ${ranges.slice(0, mostRanges).join(' · ')}${ranges.length > mostRanges ? ' · …' : ''}`;
}
