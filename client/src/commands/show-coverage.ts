import * as vscode from 'vscode';
import type { Command } from './command.ts';

/** Opens beside a procedure where every fault ends that is walked through it. Menus pass the file, the palette nothing. */
export const showCoverage: Command = {
  id: 'faultwalk.showCoverage',
  run: async ({ coverage }, ...args) => {
    const uri = args[0] instanceof vscode.Uri ? args[0] : vscode.window.activeTextEditor?.document.uri;
    if (uri === undefined || !/\.procedure\.ya?ml$/i.test(uri.path)) {
      await vscode.window.showInformationMessage('Open a procedure first; what its faults come to opens beside it');
      return;
    }
    coverage.open(uri);
  },
};
