import * as path from 'node:path';
import * as vscode from 'vscode';
import { languageOf } from '../../server/src/protocol/messages.ts';
import type { PreviewState, PreviewWalk } from '../../server/src/protocol/preview.ts';
import type { Checker } from '../src/language-client.ts';
import type { ToHost } from './messages.ts';
import { page, pageOptions } from './page.ts';
import { Preview } from './panel.ts';
import { freshWalk } from './walk.ts';

export const previewType = 'faultwalk.preview';

/** The previews of all procedures, one panel for each. */
export interface Previews extends vscode.Disposable {
  /** Opens the preview of a procedure beside the text, or brings it to the front; with a step the walk begins there. */
  open(uri: vscode.Uri, step?: string): void;
  /** What the preview of a procedure shows. */
  stateOf(uri: vscode.Uri): PreviewState | undefined;
  /** As if it had come from the view. */
  act(uri: vscode.Uri, did: ToHost): Promise<void>;
}

export function createPreviews(extensionUri: vscode.Uri, checker: Checker): Previews {
  const open = new Map<string, Preview>();

  function adopt(panel: vscode.WebviewPanel, uri: vscode.Uri, walk: PreviewWalk): void {
    // Opening the text starts the server where it has not been started yet; a file that is gone is told in the panel.
    vscode.workspace.openTextDocument(uri).then(undefined, () => preview.showNothing());
    const goOn = (other: vscode.Uri) => previews.open(other);
    const preview = new Preview(panel, uri, walk, { checker, goOn });
    open.set(uri.toString(), preview);
    panel.onDidDispose(() => open.delete(uri.toString()));
    panel.iconPath = {
      light: vscode.Uri.joinPath(extensionUri, 'client/media/procedure-light.svg'),
      dark: vscode.Uri.joinPath(extensionUri, 'client/media/procedure-dark.svg'),
    };
    panel.webview.options = pageOptions(extensionUri);
    panel.webview.html = page(panel.webview, extensionUri);
  }

  const refreshAll = () => {
    for (const preview of open.values()) preview.refreshSoon();
  };
  const subscriptions = [
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (isOurs(document)) refreshAll();
    }),
    // New findings come when the server has read what was changed outside, too.
    vscode.languages.onDidChangeDiagnostics(({ uris }) => {
      if (uris.some(uri => /\.(system|procedure|samples)\.ya?ml$/i.test(uri.path))) refreshAll();
    }),
    vscode.window.onDidChangeTextEditorSelection(event => {
      void open.get(event.textEditor.document.uri.toString())?.follow(event);
    }),
    vscode.window.registerWebviewPanelSerializer(previewType, {
      async deserializeWebviewPanel(panel, kept: { uri?: string; walk?: PreviewWalk } | undefined) {
        if (kept?.uri === undefined) panel.dispose();
        else adopt(panel, vscode.Uri.parse(kept.uri), kept.walk ?? freshWalk);
      },
    }),
  ];

  const previews: Previews = {
    open(uri, step) {
      const known = open.get(uri.toString());
      if (known) {
        known.reveal(step);
        return;
      }
      const title = `Preview ${path.posix.basename(uri.path).replace(/\.procedure\.ya?ml$/i, '')}`;
      const where = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
      const panel = vscode.window.createWebviewPanel(previewType, title, where, pageOptions(extensionUri));
      adopt(panel, uri, step === undefined ? freshWalk : { ...freshWalk, from: step });
    },
    stateOf: uri => open.get(uri.toString())?.state,
    act: async (uri, did) => open.get(uri.toString())?.receive(did),
    dispose() {
      for (const subscription of subscriptions) subscription.dispose();
    },
  };
  return previews;
}

function isOurs({ languageId }: vscode.TextDocument): boolean {
  return (Object.values(languageOf) as string[]).includes(languageId);
}
