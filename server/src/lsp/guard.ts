import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import type { FileView } from '../analysis/view.ts';
import type { Server } from './server-context.ts';
import { normal } from './texts.ts';

type Handler<P, R> = (params: P, token: CancellationToken) => R | Promise<R>;

/**
 * A request handler that cannot take the server down: what it throws is written to the log with the name of the request,
 * and the editor gets `empty`. Before the work begins the queue is let in once, so that a cancelled request costs nothing.
 */
export function guarded<P, R>(server: Server, name: string, empty: R, handle: Handler<P, R>): Handler<P, R> {
  return async (params, token) => {
    await server.texts.settled();
    await turn();
    if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, `${name} was cancelled`);
    try {
      return await handle(params, token);
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      server.report(name, error);
      return empty;
    }
  };
}

interface OnFile {
  readonly textDocument: { readonly uri: string };
}

/** A guarded handler about one file; `empty` where the file is not known. */
export function onFile<P extends OnFile, R>(
  server: Server,
  name: string,
  empty: R,
  handle: (view: FileView, params: P) => R | Promise<R>,
): Handler<P, R> {
  return guarded(server, name, empty, params => {
    const view = server.workspace.view(normal(params.textDocument.uri));
    return view ? handle(view, params) : empty;
  });
}

/** Lets everything that waits have its turn: messages that came in meanwhile are handled before what follows. */
export function turn(): Promise<void> {
  return new Promise(resolve => setTimeout(resolve, 0));
}
