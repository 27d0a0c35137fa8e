import * as vscode from 'vscode';
import { createCoveragePanels } from '../coverage/host.ts';
import { createPreviews } from '../preview/host.ts';
import { createValuesPanels } from '../values/host.ts';
import type { Command, Services } from './commands/command.ts';
import { draft } from './commands/draft.ts';
import { next } from './commands/next.ts';
import { openExamples } from './commands/open-examples.ts';
import { openPreview } from './commands/open-preview.ts';
import { restart } from './commands/restart.ts';
import { showCoverage } from './commands/show-coverage.ts';
import { showReferences } from './commands/show-references.ts';
import { showRulePage } from './commands/show-rule-page.ts';
import { showValues } from './commands/show-values.ts';
import { createChecker } from './language-client.ts';
import { createStatus } from './status.ts';

const commands: Command[] = [
  draft,
  next,
  openExamples,
  openPreview,
  restart,
  showCoverage,
  showReferences,
  showRulePage,
  showValues,
];

/** Called by the editor when a file of ours is opened or a command of ours is called for the first time. */
export function activate(context: vscode.ExtensionContext): Services {
  const status = createStatus();
  const checker = createChecker(context.extensionUri, status);
  const previews = createPreviews(context.extensionUri, checker);
  const values = createValuesPanels(context.extensionUri, checker);
  const coverage = createCoveragePanels(context.extensionUri, checker, previews);
  const services: Services = { context, checker, status, previews, values, coverage };

  context.subscriptions.push(status, checker, previews, values, coverage);
  for (const command of commands) {
    context.subscriptions.push(
      vscode.commands.registerCommand(command.id, (...args: unknown[]) => command.run(services, ...args)),
    );
  }
  checker.startWhenNeeded();
  return services;
}
