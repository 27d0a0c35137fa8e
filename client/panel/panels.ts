import * as vscode from 'vscode';
import { languageOf } from '../../server/src/protocol/messages.ts';
import { type Page, pageOptions, pageText } from './page.ts';

/** The panels of one kind, one for each file. */
export interface Panels<T> extends vscode.Disposable {
  of(uri: vscode.Uri): T | undefined;
  /** Makes a panel beside the text, which keeps the focus; or in a column where somebody has asked for it, with the focus. */
  create(uri: vscode.Uri, title: string, make: MakePanel<T>, column?: vscode.ViewColumn): void;
}

type MakePanel<T> = (panel: vscode.WebviewPanel) => T;

export interface Kind<T> {
  /** The type of the view, as `package.json` names it in its activation events. */
  readonly type: string;
  readonly page: Page;
  /** Name of the icons in `client/media`, without `-light.svg`. */
  readonly icon: string;
  /** Makes the panel anew from what its view kept when the window was closed. */
  restore(panel: vscode.WebviewPanel, uri: vscode.Uri, kept: unknown): T;
}

/** What every panel can do. */
interface Shown {
  /** After changes to files of ours, which come in bursts. */
  refreshSoon(): void;
  showNothing(): void;
}

/** Keeps panels of one kind: their pages, their icons, that they follow the files, and that they come back with the window. */
export function createPanels<T extends Shown>(extensionUri: vscode.Uri, kind: Kind<T>): Panels<T> {
  const open = new Map<string, T>();

  function adopt(panel: vscode.WebviewPanel, uri: vscode.Uri, make: MakePanel<T>): void {
    const made = make(panel);
    // Opening the text starts the server where it has not been started yet; a file that is gone is told in the panel.
    vscode.workspace.openTextDocument(uri).then(undefined, () => made.showNothing());
    open.set(uri.toString(), made);
    panel.onDidDispose(() => open.delete(uri.toString()));
    const icon = (theme: string) => vscode.Uri.joinPath(extensionUri, `client/media/${kind.icon}-${theme}.svg`);
    panel.iconPath = { light: icon('light'), dark: icon('dark') };
    panel.webview.options = pageOptions(extensionUri);
    panel.webview.html = pageText(panel.webview, extensionUri, kind.page);
  }

  const refreshAll = () => {
    for (const panel of open.values()) panel.refreshSoon();
  };
  const subscriptions = [
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (isOurs(document)) refreshAll();
    }),
    // New findings come when the server has read what was changed outside, too.
    vscode.languages.onDidChangeDiagnostics(({ uris }) => {
      if (uris.some(uri => /\.(system|procedure|samples)\.ya?ml$/i.test(uri.path))) refreshAll();
    }),
    vscode.window.registerWebviewPanelSerializer(kind.type, {
      async deserializeWebviewPanel(panel, kept: { uri?: string } | undefined) {
        if (kept?.uri === undefined) panel.dispose();
        else {
          const uri = vscode.Uri.parse(kept.uri);
          adopt(panel, uri, made => kind.restore(made, uri, kept));
        }
      },
    }),
  ];

  return {
    of: uri => open.get(uri.toString()),
    create(uri, title, make, column) {
      const where = { viewColumn: column ?? vscode.ViewColumn.Beside, preserveFocus: column === undefined };
      adopt(vscode.window.createWebviewPanel(kind.type, title, where, pageOptions(extensionUri)), uri, make);
    },
    dispose() {
      for (const subscription of subscriptions) subscription.dispose();
    },
  };
}

function isOurs({ languageId }: vscode.TextDocument): boolean {
  return (Object.values(languageOf) as string[]).includes(languageId);
}
