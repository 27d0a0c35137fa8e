import * as vscode from 'vscode';
import { type DraftAnswer, type DraftParams, draftRequest } from '../../../server/src/protocol/draft.ts';
import { askForComplaint, askForConditions } from '../drafting/complaint.ts';
import { openDraft } from '../drafting/open-draft.ts';
import { withProgress } from '../progress.ts';
import type { Command } from './command.ts';

/**
 * Asks what somebody complains of and writes a procedure for it from the system file at hand. Menus pass the file, the palette
 * nothing; the suite in the editor passes the complaint as well.
 */
export const draft: Command = {
  id: 'faultwalk.draft',
  run: async ({ checker }, ...args) => {
    const uri = args[0] instanceof vscode.Uri ? args[0] : vscode.window.activeTextEditor?.document.uri;
    if (uri === undefined || !/\.system\.ya?ml$/i.test(uri.path)) {
      await vscode.window.showInformationMessage('Open a system first; the procedure is drafted from it');
      return;
    }
    // The server reads what the editor has open; a file that was only chosen in a menu is opened for it.
    await vscode.workspace.openTextDocument(uri);
    const client = await checker.running;
    const textDocument = { uri: client.code2ProtocolConverter.asUri(uri) };
    const asked = isComplaint(args[1]) ? args[1] : await askForComplaint(client, textDocument);
    for (let complaint = asked; complaint; ) {
      const params: DraftParams = { textDocument, ...complaint };
      const answer = await withProgress<DraftAnswer | null>(client, 'Drafting a procedure', draftRequest, params);
      if (answer?.drafted) return openDraft(uri, answer.drafted);
      if (!answer?.refused) return;
      complaint = await askForConditions(client, textDocument, complaint, answer.refused);
    }
  },
};

function isComplaint(given: unknown): given is Omit<DraftParams, 'textDocument'> {
  return typeof given === 'object' && given !== null && 'symptom' in given && 'when' in given;
}
