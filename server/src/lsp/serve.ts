import { type Connection, TextDocuments } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Workspace } from '../analysis/workspace.ts';
import type { Files } from '../disk/files.ts';
import type { InitializationOptions } from '../protocol/messages.ts';
import { capabilities } from './capabilities.ts';
import { followChanges } from './changes.ts';
import { checkerOf } from './checking.ts';
import { type Converter, converter } from './convert.ts';
import { registerHandlers } from './handlers/index.ts';
import { Roots } from './roots.ts';
import { type SettingsStore, settingsStore } from './settings.ts';
import { type Report, Texts } from './texts.ts';

/** What every handler works with. */
export interface Server {
  readonly connection: Connection;
  readonly workspace: Workspace;
  readonly texts: Texts;
  readonly roots: Roots;
  readonly convert: Converter;
  readonly settings: SettingsStore;
  /** What the client told when it connected. */
  readonly client: Client;
  /** The server goes on whatever is reported. */
  readonly report: Report;
}

export interface Client {
  options: InitializationOptions;
  canAskSettings: boolean;
  hasFolders: boolean;
  canRefresh: { hints: boolean; lenses: boolean; tokens: boolean };
}

/** Puts the language server on a connection. */
export function serve(connection: Connection, makeFiles: (roots: () => readonly string[]) => Files): void {
  const roots = new Roots();
  const workspace = new Workspace();
  const report: Report = (where, error) =>
    connection.console.error(`${where}: ${error instanceof Error ? error.stack : error}`);
  const texts = new Texts(
    workspace,
    makeFiles(() => roots.readable),
    report,
  );
  const client: Client = {
    options: {},
    canAskSettings: false,
    hasFolders: false,
    canRefresh: { hints: false, lenses: false, tokens: false },
  };
  const server: Server = {
    connection,
    workspace,
    texts,
    roots,
    client,
    convert: converter(texts),
    settings: settingsStore(connection, () => client.canAskSettings),
    report,
  };

  connection.onInitialize(params => {
    const { workspace: can } = params.capabilities;
    roots.change(params.workspaceFolders?.map(folder => folder.uri) ?? (params.rootUri ? [params.rootUri] : []));
    client.options = params.initializationOptions ?? {};
    client.canAskSettings = can?.configuration === true;
    client.hasFolders = can?.workspaceFolders === true;
    client.canRefresh = {
      hints: can?.inlayHint?.refreshSupport === true,
      lenses: can?.codeLens?.refreshSupport === true,
      tokens: can?.semanticTokens?.refreshSupport === true,
    };
    return { capabilities, serverInfo: { name: 'faultwalk' } };
  });

  const documents = new TextDocuments(TextDocument);
  followChanges(server, documents, checkerOf(server));
  registerHandlers(server);
  documents.listen(connection);
  connection.listen();
}
