import * as path from 'node:path';
import type * as vscode from 'vscode';
import type { ValuesState } from '../../server/src/protocol/values.ts';
import { createPanels } from '../panel/panels.ts';
import type { Checker } from '../src/language-client.ts';
import type { Kept, ToHost } from './messages.ts';
import { ValuesPanel } from './panel.ts';

const valuesType = 'faultwalk.values';

/** The tables of all systems, one panel for each. */
export interface ValuesPanels extends vscode.Disposable {
  /** Opens the table of a system beside the text, or brings it to the front. */
  open(uri: vscode.Uri): void;
  /** What the table of a system shows. */
  stateOf(uri: vscode.Uri): ValuesState | undefined;
  /** As if it had come from the view. */
  act(uri: vscode.Uri, did: ToHost): Promise<void>;
}

export function createValuesPanels(extensionUri: vscode.Uri, checker: Checker): ValuesPanels {
  const panels = createPanels<ValuesPanel>(extensionUri, {
    type: valuesType,
    page: { name: 'values', title: 'Values table' },
    icon: 'system',
    restore: (panel, uri, kept) => new ValuesPanel(panel, uri, (kept as Kept).variant, checker),
  });
  return {
    open(uri) {
      const known = panels.of(uri);
      if (known) {
        known.reveal();
        return;
      }
      const title = `Values ${path.posix.basename(uri.path).replace(/\.system\.ya?ml$/i, '')}`;
      panels.create(uri, title, panel => new ValuesPanel(panel, uri, undefined, checker));
    },
    stateOf: uri => panels.of(uri)?.state,
    act: async (uri, did) => panels.of(uri)?.receive(did),
    dispose: () => panels.dispose(),
  };
}
