import {
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  InsertTextMode,
  MarkupKind,
} from 'vscode-languageserver';
import type { Candidate } from '../../features/completion/candidate.ts';
import { completion } from '../../features/completion/completion.ts';
import { hover } from '../../features/hover/hover.ts';
import { guarded, onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';

/** What can be written at the cursor, and what is known about what stands there. */
export function registerCompletion(server: Server): void {
  const { connection, workspace, convert } = server;
  let last: readonly Candidate[] = [];

  connection.onCompletion(
    onFile(server, 'completion', [], (view, { position }) => {
      last = completion(workspace, view, convert.offset(view.uri, position));
      return last.map((candidate, index) => itemOf(server, view.uri, candidate, index));
    }),
  );
  connection.onCompletionResolve(
    guarded<CompletionItem, CompletionItem>(server, 'documentation', { label: '' }, item => {
      const candidate = last[item.data as number];
      if (candidate?.label !== item.label || !candidate.documentation) return item;
      return { ...item, documentation: { kind: MarkupKind.Markdown, value: candidate.documentation() } };
    }),
  );
  connection.onHover(
    onFile(server, 'hover', null, (view, { position }) => {
      const found = hover(workspace, view, convert.offset(view.uri, position));
      if (!found) return null;
      const contents = { kind: MarkupKind.Markdown, value: found.markdown };
      return { contents, range: convert.range(view.uri, found) };
    }),
  );
}

function itemOf({ convert }: Server, uri: string, candidate: Candidate, index: number): CompletionItem {
  const { label, kind, detail, insert, isSnippet, replace } = candidate;
  return {
    label,
    kind: kinds[kind],
    ...(detail && { detail }),
    filterText: label,
    sortText: String(index).padStart(5, '0'),
    insertTextFormat: isSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    insertTextMode: InsertTextMode.adjustIndentation,
    textEdit: convert.edit(uri, { ...replace, text: insert }),
    data: index,
  };
}

const kinds: Record<Candidate['kind'], CompletionItemKind> = {
  key: CompletionItemKind.Property,
  template: CompletionItemKind.Snippet,
  value: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  file: CompletionItemKind.File,
  name: CompletionItemKind.Reference,
};
