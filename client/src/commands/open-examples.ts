import * as vscode from 'vscode';
import type { Command } from './command.ts';

/** Copies the shipped examples to a folder of the reader's and opens the copy, so that they can be changed freely. */
export const openExamples: Command = {
  id: 'faultwalk.openExamples',
  run: async ({ context }, ...args) => {
    const parent = args[0] instanceof vscode.Uri ? args[0] : await askForFolder();
    if (parent === undefined) return undefined;
    const copy = await freeName(parent, 'faultwalk-examples');
    await vscode.workspace.fs.copy(vscode.Uri.joinPath(context.extensionUri, 'examples'), copy);
    // A command from the palette passes no second argument; the suite in the editor does, because opening ends its window.
    if (args[1] !== false) {
      const forceNewWindow = vscode.workspace.workspaceFolders !== undefined;
      await vscode.commands.executeCommand('vscode.openFolder', copy, { forceNewWindow });
    }
    return copy;
  },
};

async function askForFolder(): Promise<vscode.Uri | undefined> {
  const chosen = await vscode.window.showOpenDialog({
    title: 'Where should the folder of examples be made?',
    openLabel: 'Copy the examples here',
    canSelectFiles: false,
    canSelectFolders: true,
  });
  return chosen?.[0];
}

/** Nothing of the reader's is ever overwritten: a taken name gets a number. */
async function freeName(parent: vscode.Uri, name: string): Promise<vscode.Uri> {
  for (let count = 1; ; count++) {
    const uri = vscode.Uri.joinPath(parent, count === 1 ? name : `${name}-${count}`);
    const taken = await vscode.workspace.fs.stat(uri).then(
      () => true,
      () => false,
    );
    if (!taken) return uri;
  }
}
