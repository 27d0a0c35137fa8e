import type { ProcedureView } from '../analysis/view.ts';
import type { Ref } from '../base/place.ts';
import type { Procedure } from '../model/procedure.ts';
import type { Location, Stretch } from './project.ts';

/** A line above a step or an ending. */
export interface Lens extends Stretch {
  readonly title: string;
  /** The branches that lead there; absent for a lens that opens something. */
  readonly places?: readonly Location[];
  readonly opens?: 'preview' | 'next';
  /** The step that the preview begins with, or after which something is to be tested. */
  readonly step?: string;
}

/** How many branches lead to each step and ending, and for a step the preview that begins there and what is best tested next. */
export function codeLenses(view: ProcedureView): Lens[] {
  const { steps, endings } = view.procedure;
  const leading = placesByTarget(view);
  const above = (thing: { id: string; place: Ref['place'] }): Lens => {
    const places = leading.get(thing.id) ?? [];
    return { ...view.tree.absolute(thing.place.span), title: titleFor(places.length), places };
  };
  return [
    ...[...steps.values()].flatMap(step => {
      const leads = above(step);
      const at = { start: leads.start, end: leads.end, step: step.id };
      return [
        leads,
        { ...at, title: 'Preview from here', opens: 'preview' as const },
        { ...at, title: 'What to test next', opens: 'next' as const },
      ];
    }),
    ...[...endings.values()].map(above),
  ];
}

/** Gathered once for all of them; each place counts once, also where several variants share it. */
function placesByTarget(view: ProcedureView): Map<string, Location[]> {
  const places = new Map<string, Map<number, Location>>();
  for (const { text, place } of targetsIn(view.procedure)) {
    const stretch = view.tree.absolute(place.span);
    const known = places.get(text) ?? new Map<number, Location>();
    places.set(text, known.set(stretch.start, { uri: view.uri, ...stretch }));
  }
  return new Map([...places].map(([target, known]) => [target, [...known.values()]]));
}

/** The branches of the steps, where the procedure begins, and what confirms a repair. */
function targetsIn({ start, entries, steps, endings }: Procedure): Ref[] {
  const refs = [
    start,
    ...entries.map(entry => entry.start),
    ...[...steps.values()].flatMap(step =>
      [step.data, ...step.byVariant.values()].flatMap(data => data.branches.map(branch => branch.target)),
    ),
    ...[...endings.values()].flatMap(ending => [ending.data, ...ending.byVariant.values()].map(data => data.confirm)),
  ];
  return refs.filter(ref => ref !== undefined);
}

function titleFor(count: number): string {
  if (count === 0) return 'Nothing leads here';
  return count === 1 ? '1 place leads here' : `${count} places lead here`;
}
