import * as vscode from 'vscode';
import type { Command } from './command.ts';

/** Opens the values table of a system beside its text. Menus pass the file, the palette nothing. */
export const showValues: Command = {
  id: 'faultwalk.showValues',
  run: async ({ values }, ...args) => {
    const uri = args[0] instanceof vscode.Uri ? args[0] : vscode.window.activeTextEditor?.document.uri;
    if (uri === undefined || !/\.system\.ya?ml$/i.test(uri.path)) {
      await vscode.window.showInformationMessage('Open a system file first; its values table opens beside it');
      return;
    }
    values.open(uri);
  },
};
