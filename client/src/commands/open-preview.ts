import * as vscode from 'vscode';
import type { Command } from './command.ts';

/** Opens the preview beside the text. Lenses pass the procedure's address and a step, menus the file, the palette nothing. */
export const openPreview: Command = {
  id: 'faultwalk.openPreview',
  run: async ({ previews }, ...args) => {
    const uri = addressOf(args[0]) ?? vscode.window.activeTextEditor?.document.uri;
    if (uri === undefined || !/\.procedure\.ya?ml$/i.test(uri.path)) {
      await vscode.window.showInformationMessage('Open a procedure first; its preview opens beside it');
      return;
    }
    previews.open(uri, typeof args[1] === 'string' ? args[1] : undefined);
  },
};

function addressOf(given: unknown): vscode.Uri | undefined {
  if (given instanceof vscode.Uri) return given;
  return typeof given === 'string' ? vscode.Uri.parse(given) : undefined;
}
