import type { ProcedureView } from '../analysis/view.ts';
import type { Location, Project, Stretch } from './project.ts';
import { placesOf } from './references.ts';

/** A line above a step or an ending. */
export interface Lens extends Stretch {
  readonly title: string;
  /** The branches that lead there; absent for a lens that opens the preview. */
  readonly places?: readonly Location[];
  /** The step that the preview begins with. */
  readonly step?: string;
}

/** How many branches lead to each step and ending, and for a step the preview that begins there. */
export function codeLenses(project: Project, view: ProcedureView): Lens[] {
  const { steps, endings } = view.procedure;
  const above =
    (kind: 'step' | 'ending') =>
    (thing: { id: string; place: { uri: string; span: Parameters<typeof view.tree.absolute>[0] } }) => {
      const stretch = view.tree.absolute(thing.place.span);
      const places = placesOf(project, { kind, name: thing.id, uri: view.uri }, false).filter(
        ({ uri }) => uri === view.uri,
      );
      const leads: Lens = { ...stretch, title: titleFor(places.length), places };
      return kind === 'step' ? [leads, { ...stretch, title: 'Preview from here', step: thing.id }] : [leads];
    };
  return [...[...steps.values()].flatMap(above('step')), ...[...endings.values()].flatMap(above('ending'))];
}

function titleFor(count: number): string {
  if (count === 0) return 'Nothing leads here';
  return count === 1 ? '1 place leads here' : `${count} places lead here`;
}
