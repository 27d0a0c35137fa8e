import { placeOfStanding, standingAt } from '../../features/preview/place.ts';
import { preview } from '../../features/preview/preview.ts';
import type { Place } from '../../protocol/messages.ts';
import {
  type PositionParams,
  type PreviewParams,
  type PreviewState,
  previewRequest,
  type StandingParams,
  standingAtRequest,
  standingPlaceRequest,
} from '../../protocol/preview.ts';
import { onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';

/** What the preview panel asks for. */
export function registerPreview(server: Server): void {
  const { connection, workspace, convert } = server;

  connection.onRequest(
    previewRequest,
    onFile<PreviewParams, PreviewState | null>(server, 'preview', null, (view, params) =>
      view.kind === 'procedure' ? preview(workspace, view, params) : null,
    ),
  );
  connection.onRequest(
    standingPlaceRequest,
    onFile<StandingParams, Place | null>(server, 'place of a step', null, (view, { name }) => {
      const found = view.kind === 'procedure' ? placeOfStanding(view, name) : undefined;
      return found ? convert.location({ uri: view.uri, ...found }) : null;
    }),
  );
  connection.onRequest(
    standingAtRequest,
    onFile<PositionParams, string | null>(server, 'step at a position', null, (view, { position }) =>
      view.kind === 'procedure' ? (standingAt(view, convert.offset(view.uri, position)) ?? null) : null,
    ),
  );
}
