import { type CodeAction, CodeActionKind, type Diagnostic, type Range } from 'vscode-languageserver';
import type { FileView } from '../../analysis/view.ts';
import { codeActions, fixAll } from '../../features/code-actions.ts';
import { wholeMessage } from '../../features/diagnostics.ts';
import { format } from '../../features/format/format.ts';
import { limitChanges } from '../../features/limit-changes.ts';
import type { Stretch } from '../../features/project.ts';
import { openPreviewCommand } from '../../protocol/preview.ts';
import { findingsOf } from '../diagnostics.ts';
import { onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';

/** Changes to the text: fixes and the normal form. */
export function registerEditing(server: Server): void {
  const { connection, convert } = server;
  const edited = (view: FileView, range?: Range) =>
    format(
      view.tree,
      range && { start: convert.offset(view.uri, range.start), end: convert.offset(view.uri, range.end) },
    );

  connection.onDocumentFormatting(
    onFile(server, 'formatting', [], view => edited(view).map(edit => convert.edit(view.uri, edit))),
  );
  connection.onDocumentRangeFormatting(
    onFile(server, 'formatting', [], (view, { range }) =>
      edited(view, range).map(edit => convert.edit(view.uri, edit)),
    ),
  );
  connection.onCodeAction(
    onFile(server, 'fixes', [], async (view, { range, context }) => {
      const findings = findingsOf(view, await server.settings.for(server.roots.of(view.uri)));
      const wanted = (kind: string) => context.only?.some(only => kind === only || kind.startsWith(`${only}.`)) ?? true;
      const stretch = { start: convert.offset(view.uri, range.start), end: convert.offset(view.uri, range.end) };
      const fixes = wanted(CodeActionKind.QuickFix) ? codeActions(server.workspace, view.uri, findings, stretch) : [];
      const actions = fixes.map(
        ({ title, edits, isPreferred, finding }): CodeAction => ({
          title,
          kind: CodeActionKind.QuickFix,
          isPreferred,
          diagnostics: context.diagnostics.filter(
            one => one.code === finding.rule && one.message === wholeMessage(finding),
          ),
          edit: { changes: convert.changes(edits) },
        }),
      );
      if (wanted(CodeActionKind.QuickFix)) actions.push(...walksThere(view, stretch, context.diagnostics));
      if (wanted(CodeActionKind.RefactorRewrite)) actions.push(...rewritings(view, stretch, actions));
      return context.only && wanted(CodeActionKind.SourceFixAll) ? [...actions, ...allAtOnce(view, findings)] : actions;
    }),
  );

  /** The walks that show what was found by walking every fault. */
  function walksThere(view: FileView, within: Stretch, shown: readonly Diagnostic[]): CodeAction[] {
    const all = server.prover.found(view.uri, view.tree.text);
    return all.flatMap(({ start, end, rule, message, walk }) => {
      if (!walk || start > within.end || end < within.start) return [];
      const uri = server.texts.document(view.uri)?.uri ?? view.uri;
      return {
        title: 'Walk it in the preview',
        kind: CodeActionKind.QuickFix,
        diagnostics: shown.filter(one => one.code === rule && one.message === message),
        command: { title: 'Walk it in the preview', command: openPreviewCommand, arguments: [uri, walk] },
      };
    });
  }

  /** What is offered as a fix already is not offered twice. */
  function rewritings(view: FileView, within: Stretch, fixes: readonly CodeAction[]): CodeAction[] {
    const titles = new Set(fixes.map(({ title }) => title));
    return limitChanges(server.workspace, view, within)
      .filter(({ title }) => !titles.has(title))
      .map(({ title, edits }) => ({
        title,
        kind: CodeActionKind.RefactorRewrite,
        edit: { changes: convert.changes(edits) },
      }));
  }

  function allAtOnce(view: FileView, findings: Parameters<typeof fixAll>[2]): CodeAction[] {
    const edits = fixAll(server.workspace, view.uri, findings);
    if (edits.length === 0) return [];
    const title = 'Make every correction that is certainly meant';
    return [{ title, kind: CodeActionKind.SourceFixAll, edit: { changes: convert.changes(edits) } }];
  }
}
