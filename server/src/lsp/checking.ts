import { statusNotification } from '../protocol/messages.ts';
import { Checker } from './checker.ts';
import { diagnosticsOf } from './diagnostics.ts';
import type { Server } from './serve.ts';

/** The checker, at work on the files of this server. */
export function checkerOf(server: Server): Checker {
  const { connection, texts, client } = server;
  return new Checker({
    settled: () => texts.settled(),
    isOpen: uri => texts.isOpen(uri),
    version: uri => texts.document(uri)?.version,
    check: uri => diagnosticsOf(server, uri),
    publish: (uri, diagnostics) => {
      const document = texts.document(uri);
      const version = texts.isOpen(uri) ? document?.version : undefined;
      void connection.sendDiagnostics({ uri: document?.uri ?? uri, version, diagnostics });
    },
    status: status => void connection.sendNotification(statusNotification, status),
    idle: () => {
      // What stands beside the text may depend on other files than the one that was changed.
      if (client.canRefresh.hints) connection.languages.inlayHint.refresh().catch(() => {});
      if (client.canRefresh.lenses) void connection.sendRequest('workspace/codeLens/refresh').catch(() => {});
      if (client.canRefresh.tokens) connection.languages.semanticTokens.refresh().catch?.(() => {});
    },
  });
}
