import { DocumentHighlightKind, ErrorCodes, ResponseError } from 'vscode-languageserver';
import { definition } from '../../features/definition.ts';
import { documentLinks } from '../../features/links.ts';
import { highlights, references } from '../../features/references.ts';
import { prepareRename, rename } from '../../features/rename.ts';
import { onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';

/** From a name to what it stands for and back, and changing it everywhere. */
export function registerNavigation(server: Server): void {
  const { connection, workspace, convert } = server;

  connection.onDefinition(
    onFile(server, 'definition', [], (view, { position }) =>
      definition(workspace, view, convert.offset(view.uri, position)).map(convert.location),
    ),
  );
  connection.onReferences(
    onFile(server, 'references', [], (view, { position, context }) =>
      references(workspace, view, convert.offset(view.uri, position), context.includeDeclaration).map(convert.location),
    ),
  );
  connection.onDocumentHighlight(
    onFile(server, 'highlights', [], (view, { position }) =>
      highlights(view, convert.offset(view.uri, position)).map(found => ({
        range: convert.range(view.uri, found),
        kind: found.declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      })),
    ),
  );
  connection.onPrepareRename(
    onFile(server, 'prepare rename', null, (view, { position }) => {
      const { value, refused } = prepareRename(workspace, view, convert.offset(view.uri, position));
      if (refused !== undefined) throw refusal(refused);
      return { range: convert.range(view.uri, value), placeholder: value.name };
    }),
  );
  connection.onRenameRequest(
    onFile(server, 'rename', null, (view, { position, newName }) => {
      const { value, refused } = rename(workspace, view, convert.offset(view.uri, position), newName);
      if (refused !== undefined) throw refusal(refused);
      return { changes: convert.changes(value) };
    }),
  );
  connection.onDocumentLinks(
    onFile(server, 'links', [], view =>
      documentLinks(view).map(link => ({ range: convert.range(view.uri, link), target: link.target })),
    ),
  );
}

/** Shown to the author as it stands. */
function refusal(message: string): ResponseError<void> {
  return new ResponseError(ErrorCodes.InvalidRequest, message);
}
