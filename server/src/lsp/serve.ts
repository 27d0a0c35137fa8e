import { type Connection, TextDocuments } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Workspace } from '../analysis/workspace.ts';
import type { Files } from '../disk/files.ts';
import { capabilities } from './capabilities.ts';
import { followChanges } from './changes.ts';
import { checkerOf } from './checking.ts';
import { converter } from './convert.ts';
import { registerHandlers } from './handlers/index.ts';
import { type Bench, sameThread } from './prover/bench.ts';
import { proverOf } from './prover/of-server.ts';
import { Roots } from './roots.ts';
import type { Client, Server } from './server-context.ts';
import { settingsStore } from './settings.ts';
import { type Report, Texts } from './texts.ts';

/** Puts the language server on a connection. */
export function serve(
  connection: Connection,
  makeFiles: (roots: () => readonly string[]) => Files,
  bench: Bench = sameThread(),
): void {
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
    prover: proverOf(
      () => server,
      bench,
      uris => checker.queue(uris),
    ),
    report,
  };
  const checker = checkerOf(server);

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
  followChanges(server, documents, checker);
  registerHandlers(server);
  documents.listen(connection);
  connection.listen();
}
