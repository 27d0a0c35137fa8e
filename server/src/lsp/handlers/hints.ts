import { type CodeLens, InlayHintKind, SemanticTokensBuilder } from 'vscode-languageserver';
import type { FileView } from '../../analysis/view.ts';
import { codeLenses, type Lens } from '../../features/code-lens.ts';
import { inlayHints } from '../../features/inlay-hints.ts';
import type { Stretch } from '../../features/project.ts';
import { semanticTokens, tokenTypes } from '../../features/semantic-tokens.ts';
import { type ShowReferencesArguments, showReferencesCommand } from '../../protocol/messages.ts';
import { nextCommand } from '../../protocol/next.ts';
import { openPreviewCommand } from '../../protocol/preview.ts';
import { onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';

/** What the editor shows beside and above the text, and the colours of names. */
export function registerHints(server: Server): void {
  const { connection, convert } = server;

  connection.languages.inlayHint.on(
    onFile(server, 'inlay hints', [], async (view, { range }) => {
      const { inlayHints: wanted } = await server.settings.for(server.roots.of(view.uri));
      if (!wanted) return [];
      const within = { start: convert.offset(view.uri, range.start), end: convert.offset(view.uri, range.end) };
      return inlayHints(view, within).map(({ offset, text }) => ({
        position: convert.position(view.uri, offset),
        label: text,
        kind: InlayHintKind.Type,
        paddingLeft: true,
      }));
    }),
  );
  connection.onCodeLens(
    onFile(server, 'code lenses', [], view =>
      view.kind === 'procedure' ? codeLenses(view).map(lens => lensOf(server, view.uri, lens)) : [],
    ),
  );
  connection.languages.semanticTokens.on(onFile(server, 'colours', { data: [] }, view => tokensOf(server, view)));
  connection.languages.semanticTokens.onRange(
    onFile(server, 'colours', { data: [] }, (view, { range }) =>
      tokensOf(server, view, {
        start: convert.offset(view.uri, range.start),
        end: convert.offset(view.uri, range.end),
      }),
    ),
  );
}

function tokensOf({ convert }: Server, view: FileView, within?: Stretch) {
  const builder = new SemanticTokensBuilder();
  for (const { start, end, type, declares } of semanticTokens(view, within)) {
    const { line, character } = convert.position(view.uri, start);
    builder.push(line, character, end - start, tokenTypes.indexOf(type), declares ? 1 : 0);
  }
  return builder.build();
}

function lensOf({ convert }: Server, uri: string, { title, places, opens, step, ...stretch }: Lens): CodeLens {
  const range = convert.range(uri, stretch);
  const address = convert.location({ uri, ...stretch }).uri;
  if (opens) return { range, command: { title, command: commandOf[opens], arguments: [address, step] } };
  const found: ShowReferencesArguments = [address, range.start, (places ?? []).map(convert.location)];
  return { range, command: { title, command: found[2].length > 0 ? showReferencesCommand : '', arguments: found } };
}

const commandOf = { preview: openPreviewCommand, next: nextCommand };
