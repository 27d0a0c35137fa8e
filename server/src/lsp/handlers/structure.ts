import { type DocumentSymbol, type SelectionRange, SymbolKind } from 'vscode-languageserver';
import { foldingRanges } from '../../features/folding.ts';
import { type OutlineItem, outline } from '../../features/outline.ts';
import { selectionRanges } from '../../features/selection.ts';
import { workspaceSymbols } from '../../features/workspace-symbols.ts';
import { guarded, onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';

/** The outline of a file and of all files, what can be folded, and ever larger selections. */
export function registerStructure(server: Server): void {
  const { connection, workspace, convert } = server;

  connection.onDocumentSymbol(
    onFile(server, 'outline', [], view => outline(view).map(item => symbolOf(server, view.uri, item))),
  );
  connection.onWorkspaceSymbol(
    guarded(server, 'symbols', [], ({ query }) =>
      workspaceSymbols(workspace, query).map(({ name, kind, container, ...place }) => ({
        name,
        kind: symbolKinds[kind],
        containerName: container,
        location: convert.location(place),
      })),
    ),
  );
  connection.onFoldingRanges(
    onFile(server, 'folding', [], view =>
      foldingRanges(view.tree).map(({ kind, ...fold }) => {
        const { start, end } = convert.range(view.uri, fold);
        return { startLine: start.line, endLine: end.line, kind };
      }),
    ),
  );
  connection.onSelectionRanges(
    onFile(server, 'selection', [], (view, { positions }) =>
      positions.map(position => {
        const around = selectionRanges(view.tree, convert.offset(view.uri, position));
        const start: SelectionRange = { range: { start: position, end: position } };
        return (
          around.reduceRight<SelectionRange | undefined>(
            (parent, stretch) => ({ range: convert.range(view.uri, stretch), ...(parent && { parent }) }),
            undefined,
          ) ?? start
        );
      }),
    ),
  );
}

function symbolOf(server: Server, uri: string, item: OutlineItem): DocumentSymbol {
  return {
    name: item.name,
    detail: item.detail,
    kind: symbolKinds[item.kind],
    range: server.convert.range(uri, item),
    selectionRange: server.convert.range(uri, item.selection),
    children: item.children.map(child => symbolOf(server, uri, child)),
  };
}

const symbolKinds: Record<OutlineItem['kind'], SymbolKind> = {
  section: SymbolKind.Namespace,
  step: SymbolKind.Function,
  ending: SymbolKind.Event,
  part: SymbolKind.Class,
  pin: SymbolKind.Property,
  'scan datum': SymbolKind.Field,
  connector: SymbolKind.Interface,
  ground: SymbolKind.Constant,
  splice: SymbolKind.Constant,
  wire: SymbolKind.Variable,
  condition: SymbolKind.Enum,
  variant: SymbolKind.TypeParameter,
  specification: SymbolKind.Struct,
  row: SymbolKind.Field,
  walk: SymbolKind.Method,
};
