import * as path from 'node:path';
import { URI } from 'vscode-uri';
import type { FileView } from '../analysis/view.ts';
import { Workspace } from '../analysis/workspace.ts';
import type { FileText } from '../disk/files.ts';
import { nodeFiles } from '../disk/node-files.ts';
import type { Named } from '../publish/report.ts';
import { fileKindOf } from '../schema/root.ts';
import { WrongUse } from './wrong-use.ts';

/** The files that the command names, and every file that these refer to. */
export interface Project extends Named {
  readonly workspace: Workspace;
  /** Uris of the files that the command names. */
  readonly named: readonly string[];
  view(uri: string): FileView;
}

/** Reads the files, by their full names, and whatever they refer to. Throws `WrongUse` for one that cannot be read. */
export async function openProject(folder: string, files: readonly string[]): Promise<Project> {
  const workspace = new Workspace();
  const disk = nodeFiles();
  const pathOf = (uri: string) => shortName(folder, URI.parse(uri).fsPath);
  const named = files.map(file => URI.file(file).toString());
  for (const uri of named) {
    const { text, none } = await disk.read(uri);
    if (none === 'too large')
      throw new WrongUse(`\`${pathOf(uri)}\` is too large to be read`, 'split it into several files');
    if (text === undefined) throw new WrongUse(`\`${pathOf(uri)}\` cannot be read`, 'check that you may read it');
    workspace.set(uri, text);
  }
  for (let missing = workspace.missing(); missing.length > 0; missing = workspace.missing()) {
    for (const uri of missing) {
      // A file of another kind has no place behind a reference, so nothing is read that could not be used.
      const { text, none } = fileKindOf(uri) ? await disk.read(uri) : nothing;
      if (text === undefined) workspace.absent(uri, none);
      else workspace.set(uri, text);
    }
  }
  return { workspace, named, view: uri => workspace.view(uri)!, path: pathOf };
}

const nothing: FileText = { none: 'absent' };

/** As seen from the folder, with `/` on every system. */
export function shortName(folder: string, file: string): string {
  const relative = path.relative(folder, file);
  return (relative === '' || path.isAbsolute(relative) ? file : relative).replaceAll(path.sep, '/');
}
