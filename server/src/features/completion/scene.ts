import type { FileView, ProcedureView } from '../../analysis/view.ts';
import type { Procedure } from '../../model/procedure.ts';
import type { System } from '../../model/system.ts';
import { systemsOf } from '../names/names-in.ts';
import type { Project } from '../project.ts';
import { nameUnder, type Station } from './trail.ts';

/** What the names at a place may come from. */
export interface Scene {
  readonly project: Project;
  readonly view: FileView;
  readonly systems: readonly System[];
  readonly procedure?: Procedure;
  readonly trail: readonly Station[];
  /** The names above the cursor, the nearest first: `key` under `set` under a step. */
  readonly above: readonly string[];
  /** The step, part or specification that the cursor is in. */
  readonly step?: string;
  readonly part?: string;
}

export function sceneAt(project: Project, view: FileView, trail: readonly Station[]): Scene {
  const procedureView = procedureOf(view);
  const step = nameUnder(trail, 'steps');
  const part = nameUnder(trail, 'parts');
  return {
    project,
    view,
    systems: view.kind === 'system' ? [view.system] : procedureView ? systemsOf(procedureView) : [],
    ...(procedureView && { procedure: procedureView.procedure }),
    trail,
    above: trail.flatMap(({ entry }) => (entry ? [entry.key.text] : [])).reverse(),
    ...(step !== undefined && { step }),
    ...(part !== undefined && { part }),
  };
}

export function procedureOf(view: FileView): ProcedureView | undefined {
  if (view.kind === 'procedure') return view;
  return view.kind === 'samples' ? view.procedure : undefined;
}
