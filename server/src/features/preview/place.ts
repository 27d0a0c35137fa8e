import type { ProcedureView } from '../../analysis/view.ts';
import { type Stretch, touches } from '../project.ts';

/** Where the name of a step or an ending stands. */
export function placeOfStanding({ procedure, tree }: ProcedureView, name: string): Stretch | undefined {
  const found = procedure.steps.get(name) ?? procedure.endings.get(name);
  return found && tree.absolute(found.place.span);
}

/** The step or ending whose entry holds the offset. */
export function standingAt({ procedure, tree }: ProcedureView, offset: number): string | undefined {
  const all = [...procedure.steps.values(), ...procedure.endings.values()];
  return all.find(({ entry }) => touches(tree.absolute(entry.span), offset))?.id;
}
