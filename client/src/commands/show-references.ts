import * as vscode from 'vscode';
import { type ShowReferencesArguments, showReferencesCommand } from '../../../server/src/protocol/messages.ts';
import type { Command } from './command.ts';

/** The server knows places as plain data; the editor's own list of references wants its own classes. */
export const showReferences: Command = {
  id: showReferencesCommand,
  run: (_, ...args) => {
    const [uri, at, places] = args as ShowReferencesArguments;
    return vscode.commands.executeCommand(
      'editor.action.showReferences',
      vscode.Uri.parse(uri),
      position(at),
      places.map(
        place =>
          new vscode.Location(
            vscode.Uri.parse(place.uri),
            new vscode.Range(position(place.range.start), position(place.range.end)),
          ),
      ),
    );
  },
};

function position({ line, character }: { line: number; character: number }): vscode.Position {
  return new vscode.Position(line, character);
}
