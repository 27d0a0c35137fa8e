import type { FileView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';

/** A workspace of these files alone; whatever else they name is not there. */
export function workspaceOf(files: Iterable<readonly [uri: string, text: string]>): Workspace {
  const workspace = new Workspace();
  for (const [uri, text] of files) workspace.set(uri, text);
  for (let missing = workspace.missing(); missing.length > 0; missing = workspace.missing()) {
    for (const uri of missing) workspace.absent(uri);
  }
  return workspace;
}

export function viewsOf(files: Iterable<readonly [uri: string, text: string]>): (uri: string) => FileView | undefined {
  const workspace = workspaceOf(files);
  return uri => workspace.view(uri);
}
