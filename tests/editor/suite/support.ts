import * as vscode from 'vscode';
import type { Services } from '../../../client/src/commands/command.ts';

export function extension(): vscode.Extension<Services> {
  const found = vscode.extensions.getExtension<Services>('faultwalk.faultwalk');
  if (found === undefined) throw new Error('the extension is not installed');
  return found;
}

/** What the extension gives away about itself; starts it when it has not started yet. */
export function services(): Thenable<Services> {
  return extension().activate();
}

/** The address of a file of the working copy. */
export function file(name: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (folder === undefined) throw new Error('no folder is open');
  return vscode.Uri.joinPath(folder.uri, name);
}

/** Opens a file of the working copy and shows it. */
export async function open(name: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(file(name));
  await vscode.window.showTextDocument(document);
  return document;
}

/** Waits until `holds` gives a value that is true, asking again and again; fails with `otherwise()` after ten seconds. */
export async function until<T>(holds: () => T | Thenable<T>, otherwise: () => string): Promise<NonNullable<T>> {
  const end = Date.now() + 10_000;
  for (;;) {
    const value = await holds();
    if (value) return value;
    if (Date.now() > end) throw new Error(otherwise());
    await new Promise(resolve => setTimeout(resolve, 50));
  }
}

export async function closeEditors(): Promise<void> {
  await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
}

export function exists(uri: vscode.Uri): Thenable<boolean> {
  return vscode.workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );
}

/** Puts one text in the place of another, which must stand there, as if it were typed. */
export async function replace(document: vscode.TextDocument, text: string, by: string): Promise<void> {
  const start = placeOf(document, text);
  const change = new vscode.WorkspaceEdit();
  change.replace(document.uri, new vscode.Range(start, placeOf(document, text, text.length)), by);
  await vscode.workspace.applyEdit(change);
}

/** Where a text stands for the first time, `offset` characters into it. */
export function placeOf(document: vscode.TextDocument, text: string, offset = 0): vscode.Position {
  const at = document.getText().indexOf(text);
  if (at < 0) throw new Error(`\`${text}\` does not stand in ${document.uri.path}`);
  return document.positionAt(at + offset);
}

export function lineOf(document: vscode.TextDocument, text: string): number {
  return placeOf(document, text).line;
}

/** Every finding of ours in a file as one line. */
export function findings(document: vscode.TextDocument): string[] {
  return vscode.languages
    .getDiagnostics(document.uri)
    .filter(({ source }) => source === 'faultwalk')
    .map(({ code, message }) => `${typeof code === 'object' ? code.value : code}: ${message.split('\n')[0]}`);
}

/** Waits until the checker has come to rest and has nothing to say about the file. */
export async function untilClean(document: vscode.TextDocument): Promise<void> {
  const { status } = await services();
  await until(
    () => status.current.state === 'idle' && findings(document).length === 0,
    () => `there is ${findings(document).join(', ')}; the status says ${JSON.stringify(status.current)}`,
  );
}

/** Puts every changed file back as it is on the disk, also those that no editor shows. */
export async function revertAll(): Promise<void> {
  for (const document of vscode.workspace.textDocuments.filter(({ isDirty }) => isDirty)) {
    await vscode.window.showTextDocument(document);
    await vscode.commands.executeCommand('workbench.action.files.revert');
  }
}

/** Waits until a rule has found something in the file. */
export function finding(document: vscode.TextDocument, rule: string): Promise<vscode.Diagnostic> {
  const wanted = (one: vscode.Diagnostic) => (typeof one.code === 'object' ? one.code.value : one.code) === rule;
  return until(
    () => vscode.languages.getDiagnostics(document.uri).find(wanted),
    () => `${rule} is not found; there is ${findings(document).join(', ') || 'nothing'}`,
  );
}
