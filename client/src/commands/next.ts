import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type NextAnswer,
  type NextStep,
  type NextTest,
  type NextTests,
  nextCommand,
  nextRequest,
  nextStepRequest,
} from '../../../server/src/protocol/next.ts';
import { standingAtRequest } from '../../../server/src/protocol/preview.ts';
import { askForVariant } from '../drafting/complaint.ts';
import { withProgress } from '../progress.ts';
import type { Command } from './command.ts';

/**
 * Lists what tells most at a step, and writes a step for the test that is chosen. Lenses pass the procedure's address and the step, the
 * palette nothing: then it is the step at the cursor. The suite in the editor passes the variant and the title of a test as well.
 */
export const next: Command = {
  id: nextCommand,
  run: async ({ checker }, ...args) => {
    const editor = vscode.window.activeTextEditor;
    const uri = typeof args[0] === 'string' ? vscode.Uri.parse(args[0]) : editor?.document.uri;
    if (uri === undefined || !/\.procedure\.ya?ml$/i.test(uri.path)) {
      await vscode.window.showInformationMessage('Open a procedure first, and put the cursor into a step');
      return;
    }
    const client = await checker.running;
    const textDocument = { uri: client.code2ProtocolConverter.asUri(uri) };
    const step = typeof args[1] === 'string' ? args[1] : await stepAt(client, textDocument, editor!.selection.active);
    const variant = typeof args[2] === 'string' ? args[2] : undefined;
    const found = step === undefined ? undefined : await testsAt(client, { textDocument, step, variant });
    if (!found || step === undefined) return;
    const test = found.tests.find(({ title }) => title === args[3]) ?? (await choose(step, found));
    if (!test) return;
    const asked = { textDocument, step, variant: found.variant, test: test.test, minutes: test.minutes };
    const written = await client.sendRequest<NextStep | null>(nextStepRequest, asked);
    if (written) await insert(uri, written);
    else
      await vscode.window.showInformationMessage(
        `\`${step}\` does not stand in lines of its own, so nothing is put behind it`,
      );
  },
};

async function stepAt(client: LanguageClient, textDocument: { uri: string }, position: vscode.Position) {
  const name = await client.sendRequest<string | null>(standingAtRequest, { textDocument, position });
  if (name === null) await vscode.window.showInformationMessage('Put the cursor into a step first');
  return name ?? undefined;
}

async function testsAt(
  client: LanguageClient,
  params: { textDocument: { uri: string }; step: string; variant?: string },
): Promise<NextTests | undefined> {
  const title = `Looking for what tells most at \`${params.step}\``;
  const answer = await withProgress<NextAnswer | null>(client, title, nextRequest, params);
  if (answer?.tests) {
    if (answer.tests.tests.length > 0) return answer.tests;
    await vscode.window.showInformationMessage('Nothing that can be done here tells the suspects apart');
    return undefined;
  }
  if (answer === null) await vscode.window.showInformationMessage(`\`${params.step}\` is no step`);
  if (!answer) return undefined;
  if (params.variant === undefined && answer.variants.length > 1) {
    const variant = await askForVariant(answer.variants);
    return variant === undefined ? undefined : testsAt(client, { ...params, variant });
  }
  await vscode.window.showInformationMessage(`No way leads to \`${params.step}\``);
  return undefined;
}

async function choose(step: string, { tests, summary }: NextTests): Promise<NextTest | undefined> {
  const items = tests.map(test => ({ label: test.title, description: test.figures, detail: test.splits, test }));
  const picked = await vscode.window.showQuickPick(items, {
    title: `What to test next at ${step}`,
    placeHolder: `${summary}. What is chosen is written as a step behind this one`,
    matchOnDetail: true,
  });
  return picked?.test;
}

/** The cursor goes to where the first branch is to lead. */
async function insert(uri: vscode.Uri, { at, text, cursor }: NextStep): Promise<void> {
  const editor = await vscode.window.showTextDocument(uri);
  const edit = new vscode.WorkspaceEdit();
  edit.insert(uri, new vscode.Position(at.line, at.character), text);
  await vscode.workspace.applyEdit(edit);
  const target = new vscode.Position(cursor.line, cursor.character);
  editor.selection = new vscode.Selection(target, target);
  editor.revealRange(new vscode.Range(new vscode.Position(at.line, 0), target));
}
