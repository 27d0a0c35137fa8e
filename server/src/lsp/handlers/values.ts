import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { placeOfPoint } from '../../features/values/place.ts';
import { workOnTable, workOnValuesState } from '../../features/values/values.ts';
import type { Place } from '../../protocol/messages.ts';
import {
  type ValuesCopyParams,
  type ValuesParams,
  type ValuesPlaceParams,
  type ValuesState,
  valuesCopyRequest,
  valuesPlaceRequest,
  valuesRequest,
} from '../../protocol/values.ts';
import { valuesAsCsv } from '../../publish/values-csv.ts';
import { valuesAsMarkdown } from '../../publish/values-markdown.ts';
import { guarded, onFile, turn } from '../guard.ts';
import type { Server } from '../server-context.ts';
import { normal } from '../texts.ts';

/** What the panel of values asks for. */
export function registerValues(server: Server): void {
  const { connection, workspace, convert } = server;
  const systemAt = ({ textDocument }: ValuesParams) => {
    const view = workspace.view(normal(textDocument.uri));
    return view?.kind === 'system' ? view : undefined;
  };

  connection.onRequest(
    valuesRequest,
    guarded<ValuesParams, ValuesState | null>(server, 'values table', null, (params, token) => {
      const view = systemAt(params);
      return view ? inPieces(workOnValuesState(view, params.variant), token) : null;
    }),
  );
  connection.onRequest(
    valuesCopyRequest,
    guarded<ValuesCopyParams, string | null>(server, 'copy of the values table', null, async (params, token) => {
      const view = systemAt(params);
      if (!view) return null;
      const table = await inPieces(workOnTable(view, params.variant), token);
      const { title, id } = view.system;
      return params.form === 'csv' ? valuesAsCsv([table]) : valuesAsMarkdown(title ?? id?.text ?? 'System', [table]);
    }),
  );
  connection.onRequest(
    valuesPlaceRequest,
    onFile<ValuesPlaceParams, Place | null>(server, 'place of a point', null, (view, { point }) => {
      const place = view.kind === 'system' ? placeOfPoint(view, point) : undefined;
      const home = place && workspace.view(place.uri);
      return home ? convert.location({ uri: home.uri, ...home.tree.absolute(place.span) }) : null;
    }),
  );
}

/** Does the work a little at a time, so that what is typed meanwhile is answered, and stops when nobody waits for it any more. */
async function inPieces<T>(work: Generator<void, T>, token: CancellationToken): Promise<T> {
  for (let since = performance.now(); ; ) {
    const { done, value } = work.next();
    if (done) return value;
    if (performance.now() - since < pieceMs) continue;
    await turn();
    if (token.isCancellationRequested)
      throw new ResponseError(LSPErrorCodes.RequestCancelled, 'The work was cancelled');
    since = performance.now();
  }
}

const pieceMs = 20;
