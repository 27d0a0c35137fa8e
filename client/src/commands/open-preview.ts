import * as vscode from 'vscode';
import type { PreviewWalk } from '../../../server/src/protocol/preview.ts';
import { freshWalk } from '../../preview/walk.ts';
import type { Command } from './command.ts';

/**
 * Opens the preview beside the text. Lenses pass the procedure's address and a step, findings and the coverage a whole walk, menus
 * the file, the palette nothing.
 */
export const openPreview: Command = {
  id: 'faultwalk.openPreview',
  run: async ({ previews }, ...args) => {
    const uri = addressOf(args[0]) ?? vscode.window.activeTextEditor?.document.uri;
    if (uri === undefined || !/\.procedure\.ya?ml$/i.test(uri.path)) {
      await vscode.window.showInformationMessage('Open a procedure first; its preview opens beside it');
      return;
    }
    previews.open(uri, typeof args[1] === 'string' ? { ...freshWalk, from: args[1] } : walkFrom(args[1]));
  },
};

/** A walk as the server gives it, with answers that the preview steps through. */
function walkFrom(given: unknown): PreviewWalk | undefined {
  const isWalk = typeof given === 'object' && given !== null && 'answers' in given && Array.isArray(given.answers);
  return isWalk ? (given as PreviewWalk) : undefined;
}

function addressOf(given: unknown): vscode.Uri | undefined {
  if (given instanceof vscode.Uri) return given;
  return typeof given === 'string' ? vscode.Uri.parse(given) : undefined;
}
