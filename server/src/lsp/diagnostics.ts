import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver';
import type { FileView } from '../analysis/view.ts';
import type { Severity } from '../base/finding.ts';
import { sizeLimitBytes } from '../disk/files.ts';
import { diagnostics, type Diagnostic as Shown } from '../features/diagnostics.ts';
import type { Settings } from '../protocol/messages.ts';
import { saysWhatItShows } from '../rules/proof/proved.ts';
import { checkAlone, checkWithoutProof, type FoundFinding } from '../rules/run.ts';
import type { Server } from './server-context.ts';

/** The findings of a file, as the editor wants them; undefined for a file that is not there or could not be checked. */
export async function diagnosticsOf(server: Server, uri: string): Promise<Diagnostic[] | undefined> {
  const { texts, roots, settings, workspace } = server;
  if (texts.isTooLarge(uri)) return [tooLarge];
  const levels = await settings.for(roots.of(uri));
  const view = workspace.view(uri);
  if (!view) return undefined;
  const isProved = texts.isOpen(uri) && view.kind === 'procedure' && saysWhatItShows(view);
  const proved = isProved ? server.prover.found(uri, view.tree.text) : [];
  return shown(server, [...diagnostics(workspace, uri, findingsOf(view, levels)), ...proved], uri);
}

/** What a file tells by itself; undefined where all is known already. */
export async function firstDiagnosticsOf(server: Server, uri: string): Promise<Diagnostic[] | undefined> {
  const { texts, roots, settings, workspace } = server;
  if (texts.isTooLarge(uri)) return undefined;
  const levels = await settings.for(roots.of(uri));
  const view = workspace.view(uri);
  if (!view || known.get(view)?.settings === levels) return undefined;
  return shown(server, diagnostics(workspace, uri, checkAlone(view, new Map(Object.entries(levels.rules)))), uri);
}

function shown(server: Server, all: readonly Shown[], uri: string): Diagnostic[] {
  return all.map(found => {
    const { rule, severity, message, related, isUnnecessary } = found;
    const page = server.client.options.rulePage?.replace('{rule}', rule);
    return {
      range: server.convert.range(uri, found),
      severity: severities[severity],
      source: 'faultwalk',
      code: rule,
      ...(page && { codeDescription: { href: page } }),
      message,
      ...(related.length > 0 && {
        relatedInformation: related.map(one => ({ location: server.convert.location(one), message: one.message })),
      }),
      ...(isUnnecessary && { tags: [DiagnosticTag.Unnecessary] }),
    };
  });
}

const tooLarge: Diagnostic = {
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } },
  severity: DiagnosticSeverity.Error,
  source: 'faultwalk',
  code: 'file-too-large',
  message: `File is larger than ${sizeLimitBytes / 1_000_000} MB and was not read\nhelp: split it into several files`,
};

const known = new WeakMap<FileView, { settings: Settings; found: readonly FoundFinding[] }>();

/** Kept as long as the file, what it depends on and the settings are the same. */
export function findingsOf(view: FileView, settings: Settings): readonly FoundFinding[] {
  const before = known.get(view);
  if (before?.settings === settings) return before.found;
  const found = checkWithoutProof(view, new Map(Object.entries(settings.rules)));
  known.set(view, { settings, found });
  return found;
}

const severities: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};
