import * as path from 'node:path';
import * as vscode from 'vscode';
import type { PreviewState, PreviewWalk } from '../../server/src/protocol/preview.ts';
import { createPanels } from '../panel/panels.ts';
import type { Checker } from '../src/language-client.ts';
import type { ToHost } from './messages.ts';
import { type Around, Preview } from './panel.ts';
import { freshWalk } from './walk.ts';

export const previewType = 'faultwalk.preview';

/** The previews of all procedures, one panel for each. */
export interface Previews extends vscode.Disposable {
  /** Opens the preview of a procedure beside the text or in a column, or brings it to the front; with a walk it shows that one. */
  open(uri: vscode.Uri, walk?: PreviewWalk, column?: vscode.ViewColumn): void;
  /** What the preview of a procedure shows. */
  stateOf(uri: vscode.Uri): PreviewState | undefined;
  /** As if it had come from the view. */
  act(uri: vscode.Uri, did: ToHost): Promise<void>;
}

export function createPreviews(extensionUri: vscode.Uri, checker: Checker): Previews {
  const around: Around = { checker, goOn: other => previews.open(other) };
  const panels = createPanels<Preview>(extensionUri, {
    type: previewType,
    page: { name: 'preview', title: 'Procedure preview' },
    icon: 'procedure',
    restore: (panel, uri, kept) => new Preview(panel, uri, (kept as { walk?: PreviewWalk }).walk ?? freshWalk, around),
  });
  const following = vscode.window.onDidChangeTextEditorSelection(event => {
    void panels.of(event.textEditor.document.uri)?.follow(event);
  });

  const previews: Previews = {
    open(uri, walk, column) {
      const known = panels.of(uri);
      if (known) {
        known.reveal(walk);
        return;
      }
      const title = `Preview ${path.posix.basename(uri.path).replace(/\.procedure\.ya?ml$/i, '')}`;
      panels.create(uri, title, panel => new Preview(panel, uri, walk ?? freshWalk, around), column);
    },
    stateOf: uri => panels.of(uri)?.state,
    act: async (uri, did) => panels.of(uri)?.receive(did),
    dispose() {
      panels.dispose();
      following.dispose();
    },
  };
  return previews;
}
