import * as vscode from 'vscode';
import type { Place } from '../../server/src/protocol/messages.ts';

export function rangeOf({ range: { start, end } }: Place): vscode.Range {
  return new vscode.Range(start.line, start.character, end.line, end.character);
}

/** Brings a place into view and selects it, in the group where its file is shown already, else in the first. */
export async function showPlace(uri: vscode.Uri, place: Place): Promise<void> {
  const shown = vscode.window.visibleTextEditors.find(one => one.document.uri.toString() === uri.toString());
  await vscode.window.showTextDocument(uri, {
    viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One,
    selection: rangeOf(place),
  });
}
