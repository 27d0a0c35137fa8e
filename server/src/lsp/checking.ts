import { statusNotification } from '../protocol/messages.ts';
import { saysWhatItShows } from '../rules/proof/proved.ts';
import { fileKindOf } from '../schema/root.ts';
import { Checker } from './checker.ts';
import { diagnosticsOf, firstDiagnosticsOf } from './diagnostics.ts';
import type { Server } from './server-context.ts';
import { warmUp } from './warm-up.ts';

/** The checker, at work on the files of this server. */
export function checkerOf(server: Server): Checker {
  const { connection, texts, client } = server;
  let isWarm = false;
  // Where the ways in do not say what they show, there is nothing to be found; whoever wants to see the walks asks for them.
  const isToBeProved = (uri: string) => {
    const view = texts.isOpen(uri) && fileKindOf(uri) === 'procedure' ? server.workspace.view(uri) : undefined;
    return view?.kind === 'procedure' && saysWhatItShows(view);
  };
  const checker = new Checker({
    settled: () => texts.settled(),
    isOpen: uri => texts.isOpen(uri),
    version: uri => texts.document(uri)?.version,
    check: uri =>
      diagnosticsOf(server, uri).catch(error => {
        server.report(`checking ${uri}`, error);
        return 'failed' as const;
      }),
    checkAlone: uri => firstDiagnosticsOf(server, uri).catch(() => undefined),
    publish: (uri, diagnostics) => {
      const document = texts.document(uri);
      const version = texts.isOpen(uri) ? document?.version : undefined;
      quietly(() => connection.sendDiagnostics({ uri: document?.uri ?? uri, version, diagnostics }));
    },
    status: status => quietly(() => connection.sendNotification(statusNotification, status)),
    busy: () => server.prover.hold(true),
    idle: () => {
      server.prover.hold(false);
      for (const uri of server.workspace.uris()) if (isToBeProved(uri)) server.prover.want(uri);
      if (!isWarm) void warmUp(() => checker.isBusy);
      isWarm = true;
      // What stands beside the text may depend on other files than the one that was changed.
      if (client.canRefresh.hints) quietly(() => connection.languages.inlayHint.refresh());
      if (client.canRefresh.lenses) quietly(() => connection.sendRequest('workspace/codeLens/refresh'));
      if (client.canRefresh.tokens) quietly(async () => connection.languages.semanticTokens.refresh());
    },
  });
  return checker;
}

/** An editor that went away meanwhile is no news. */
async function quietly(send: () => Promise<unknown>): Promise<void> {
  try {
    await send();
  } catch {}
}
