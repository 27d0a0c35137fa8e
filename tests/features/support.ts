import * as fs from 'node:fs';
import type { FileView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import type { Stretch } from '../../server/src/features/project.ts';

/** Several files with the cursor in one of them. */
export interface Scene {
  readonly workspace: Workspace;
  readonly view: FileView;
  readonly offset: number;
}

const folder = 'file:///project/';

export function uriOf(name: string): string {
  return folder + name;
}

/** A small system and a procedure for it; enough to name every kind of thing. */
export const lampSystem = fs.readFileSync(new URL('./lamp.system.yaml', import.meta.url), 'utf8');
export const lampProcedure = fs.readFileSync(new URL('./lamp-dark.procedure.yaml', import.meta.url), 'utf8');
export const lampSamples = fs.readFileSync(new URL('./lamp-dark.samples.yaml', import.meta.url), 'utf8');

/** Files by name; `$0` in one of them is the cursor, and is taken out. */
export function scene(files: Record<string, string>): Scene {
  const workspace = new Workspace();
  let at = { uri: uriOf(Object.keys(files)[0]), offset: 0 };
  for (const [name, marked] of Object.entries(files)) {
    const offset = marked.indexOf('$0');
    if (offset >= 0) at = { uri: uriOf(name), offset };
    workspace.set(uriOf(name), marked.replace('$0', ''));
  }
  const view = workspace.view(at.uri);
  if (!view) throw new Error(`there is no ${at.uri}`);
  return { workspace, view, offset: at.offset };
}

/** The three lamp files, with a change that puts `$0` into one of them. */
export function lampScene(change: (files: Record<string, string>) => void = () => {}): Scene {
  const files = {
    'lamp.system.yaml': lampSystem,
    'lamp-dark.procedure.yaml': lampProcedure,
    'lamp-dark.samples.yaml': lampSamples,
  };
  change(files);
  return scene(files);
}

/** A lamp scene with the cursor inside the first text that matches, where `|` stands in `mark`. */
export function cursorAt(file: keyof ReturnType<typeof lampNames>, mark: string): Scene {
  return lampScene(files => {
    const name = lampNames()[file];
    const found = mark.replace('|', '');
    if (!files[name].includes(found)) throw new Error(`${name} holds no ${found}`);
    files[name] = files[name].replace(found, mark.replace('|', '$0'));
  });
}

function lampNames() {
  return {
    system: 'lamp.system.yaml',
    procedure: 'lamp-dark.procedure.yaml',
    samples: 'lamp-dark.samples.yaml',
  };
}

export function textAt(view: FileView, { start, end }: Stretch): string {
  return view.tree.text.slice(start, end);
}

/** The same files with line breaks of Windows. */
export function windows(text: string): string {
  return text.replaceAll('\n', '\r\n');
}
