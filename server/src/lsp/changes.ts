import type { TextDocuments } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { fileLimit } from '../disk/files.ts';
import type { Checker } from './checker.ts';
import { isBelow } from './roots.ts';
import type { Server } from './server-context.ts';
import { normal } from './texts.ts';

/** Keeps the texts in step with the editor and the disk, and has everything checked again that a change reaches. */
export function followChanges(server: Server, documents: TextDocuments<TextDocument>, checker: Checker): void {
  const { connection, texts, roots, workspace, settings } = server;

  const changed = (uri: string) => checker.queue([uri, ...workspace.dependents(uri)]);

  const readFolders = async (folders: readonly string[]) => {
    for (const folder of folders) {
      const found = await texts.disk.list(folder, fileLimit);
      for (const uri of found) await texts.reread(uri);
      checker.queue(found.map(normal));
      if (found.length === fileLimit)
        connection.window.showInformationMessage(`Only the first ${fileLimit} files of ${folder} are checked`);
    }
  };

  documents.onDidOpen(({ document }) => roots.opened(normal(document.uri)));
  documents.onDidChangeContent(({ document }) => {
    texts.edited(document);
    changed(normal(document.uri));
  });
  documents.onDidClose(async ({ document }) => {
    roots.closed(normal(document.uri));
    await texts.closed(document.uri);
    changed(normal(document.uri));
  });

  connection.onDidChangeWatchedFiles(async ({ changes }) => {
    for (const { uri } of changes) await texts.reread(uri);
    for (const { uri } of changes) changed(normal(uri));
  });
  connection.onDidChangeConfiguration(params => {
    settings.forget(params.settings);
    server.prover.age();
    checker.queue(workspace.uris());
  });
  connection.onInitialized(() => {
    void readFolders(roots.folders);
    if (!server.client.hasFolders) return;
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      roots.change(
        added.map(folder => folder.uri),
        removed.map(folder => folder.uri),
      );
      void readFolders(added.map(folder => folder.uri));
      for (const uri of workspace
        .uris()
        .filter((one: string) => removed.some(folder => isBelow(one, normal(folder.uri)))))
        void texts.reread(uri).then(() => changed(uri));
    });
  });
  connection.onShutdown(() => {
    checker.stop();
    server.prover.dispose();
  });
}
