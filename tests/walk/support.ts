import type { ProcedureView } from '../../server/src/analysis/view.ts';
import type { Workspace } from '../../server/src/analysis/workspace.ts';
import { begin, type Course, coursesOf, entryNamed, startOf, type Walk } from '../../server/src/walk/walk.ts';
import { systemsByName } from '../support/systems.ts';
import { workspaceOf } from '../support/workspace.ts';

const folder = 'file:///project/';

/** A workspace with these files and the ready-made systems that they name. */
export function project(files: Record<string, string>): Workspace {
  const text = Object.values(files).join('\n');
  const systems = [...systemsByName].filter(([name]) => text.includes(name) && !(name in files));
  const all = [...systems, ...Object.entries(files)];
  return workspaceOf(all.map(([name, content]) => [folder + name, content.replace(/^\n/, '')] as const));
}

export function procedureIn(workspace: Workspace, name: string): ProcedureView {
  const view = workspace.view(folder + name);
  if (view?.kind !== 'procedure') throw new Error(`there is no procedure ${name}`);
  return view;
}

/** A procedure about the lamp, with these steps and endings. */
export function lamp(stepsAndEndings: string): ProcedureView {
  return procedureFor('lamp.system.yaml', stepsAndEndings);
}

export function procedureFor(system: string, stepsAndEndings: string): ProcedureView {
  const name = 'example.procedure.yaml';
  return procedureIn(project({ [name]: procedureText(system, stepsAndEndings) }), name);
}

export function procedureText(system: string, stepsAndEndings: string): string {
  return `
format: 1
procedure: example
title: The lamp stays dark
applies to: { ${system}: all }
starts from:
  - symptom: lamp stays dark
  - { code: L01, start: volts }
start: look
${stepsAndEndings.replace(/^\n/, '')}`;
}

export function walkOf(view: ProcedureView, entry?: string, course: Course = coursesOf(view)[0]!): Walk {
  return begin(course, startOf(view.procedure, entryNamed(view.procedure, entry)));
}
