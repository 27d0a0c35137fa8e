import { CodeActionKind, type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver';
import { tokenModifiers, tokenTypes } from '../features/semantic-tokens.ts';

/** What the server can do, as the editor is told on the first message. */
export const capabilities: ServerCapabilities = {
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
  // A blank and a dash also end a word here, and the next one may be known. Behind a colon the author may go on in the next line,
  // where Enter must not take what is offered; a blank asks for the value.
  completionProvider: { resolveProvider: true, triggerCharacters: [' ', '.', '/', '(', '[', '{', ',', '-'] },
  hoverProvider: true,
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  renameProvider: { prepareProvider: true },
  documentSymbolProvider: true,
  workspaceSymbolProvider: true,
  foldingRangeProvider: true,
  selectionRangeProvider: true,
  documentLinkProvider: {},
  codeLensProvider: {},
  codeActionProvider: {
    codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite, CodeActionKind.SourceFixAll],
  },
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  inlayHintProvider: true,
  semanticTokensProvider: {
    legend: { tokenTypes: [...tokenTypes], tokenModifiers: [...tokenModifiers] },
    full: true,
    range: true,
  },
  workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
};
