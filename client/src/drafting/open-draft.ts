import * as path from 'node:path';
import * as vscode from 'vscode';
import type { DraftAnswer } from '../../../server/src/protocol/draft.ts';

/** Opens a draft that is not saved yet, with its place beside the system, so that the names of files in it hold. */
export async function openDraft(
  system: vscode.Uri,
  { name, text, said }: NonNullable<DraftAnswer['drafted']>,
): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(await freePlace(system, name));
  const edit = new vscode.WorkspaceEdit();
  edit.insert(document.uri, new vscode.Position(0, 0), text);
  await vscode.workspace.applyEdit(edit);
  await vscode.window.showTextDocument(document, { preview: false });
  void vscode.window.showInformationMessage(said);
  return document;
}

/** A name that no file has and that no other draft is open under. */
async function freePlace(system: vscode.Uri, name: string): Promise<vscode.Uri> {
  const ending = '.procedure.yaml';
  for (let count = 1; ; count++) {
    const numbered = count === 1 ? name : `${name.slice(0, -ending.length)}-${count}${ending}`;
    const place = system.with({ path: path.posix.join(path.posix.dirname(system.path), numbered) });
    const draft = place.with({ scheme: 'untitled' });
    const isOpen = vscode.workspace.textDocuments.some(({ uri }) => uri.toString() === draft.toString());
    if (!isOpen && !(await exists(place))) return draft;
  }
}

function exists(uri: vscode.Uri): Thenable<boolean> {
  return vscode.workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );
}
