import * as path from 'node:path';
import type * as vscode from 'vscode';
import type { CoverageState } from '../../server/src/protocol/coverage.ts';
import { createPanels } from '../panel/panels.ts';
import type { Previews } from '../preview/host.ts';
import type { Checker } from '../src/language-client.ts';
import type { Kept, ToHost } from './messages.ts';
import { type Around, CoveragePanel } from './panel.ts';

const coverageType = 'faultwalk.coverage';

/** Where every fault ends, one panel for each procedure. */
export interface CoveragePanels extends vscode.Disposable {
  /** Opens the panel of a procedure beside the text, or brings it to the front. */
  open(uri: vscode.Uri): void;
  /** What the panel of a procedure shows. */
  stateOf(uri: vscode.Uri): CoverageState | undefined;
  /** As if it had come from the view. */
  act(uri: vscode.Uri, did: ToHost): Promise<void>;
}

export function createCoveragePanels(extensionUri: vscode.Uri, checker: Checker, previews: Previews): CoveragePanels {
  const around: Around = { checker, step: (uri, walk, column) => previews.open(uri, walk, column) };
  const panels = createPanels<CoveragePanel>(extensionUri, {
    type: coverageType,
    page: { name: 'coverage', title: 'Where every fault ends' },
    icon: 'procedure',
    restore: (panel, uri, kept) => new CoveragePanel(panel, uri, (kept as Partial<Kept>).look ?? {}, around),
  });
  const following = checker.onProved(uri => panels.of(uri)?.refreshSoon());
  return {
    open(uri) {
      const known = panels.of(uri);
      if (known) {
        known.reveal();
        return;
      }
      const title = `Coverage ${path.posix.basename(uri.path).replace(/\.procedure\.ya?ml$/i, '')}`;
      panels.create(uri, title, panel => new CoveragePanel(panel, uri, {}, around));
    },
    stateOf: uri => panels.of(uri)?.state,
    act: async (uri, did) => panels.of(uri)?.receive(did),
    dispose() {
      panels.dispose();
      following.dispose();
    },
  };
}
