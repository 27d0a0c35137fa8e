import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, finding, findings, lineOf, open, replace, services, until, untilClean } from './support.ts';

const procedure = 'lamp/lamp-dark.procedure.yaml';

describe('mending', () => {
  before(services);
  afterEach(closeEditors);

  it("uses the circuit's range", async () => {
    const document = await open(procedure);
    await replace(document, '7.8 V .. 9.0 V', '11.0 V .. 12.0 V');
    await mend(document, 'limits-contradict-circuit', /^Use the circuit's range `7\.8/);
    await untilClean(document);
    assert.match(document.getText(), /limits: 7\.8\d V \.\. 8\.9\d V/);
  });

  it('adds the branch that is missing', async () => {
    const document = await open(procedure);
    await replace(document, '      otherwise: mend-wires\n', '      below: mend-wires\n');
    await mend(document, 'gap-between-branches', /^Add `otherwise`$/);
    await without(document, 'gap-between-branches');
    const line = document.lineAt(lineOf(document, 'below: mend-wires') + 1).text;
    assert.equal(line, '      otherwise:');
  });

  it('creates the step that a branch leads to', async () => {
    const document = await open(procedure);
    await replace(document, 'all sound: lamp-voltage', 'all sound: fuse-feed');
    await mend(document, 'unknown-name', /^Create the step `fuse-feed`$/);
    await without(document, 'unknown-name');
    assert.match(document.getText(), /^ {2}fuse-feed:$/m);
  });

  it('writes at once all that is certainly meant, and leaves a guess to the author', async () => {
    const document = await open(procedure);
    await replace(document, 'minutes: 2', 'Minutes: 2');
    await replace(document, 'measure: voltage', 'measure: Voltage');
    await replace(document, 'applies to:', 'applies_to:');
    await replace(document, 'minutes: 3', 'minuts: 3');
    await finding(document, 'unknown-key');
    const [all] = await actionsAt(document, whole(document), vscode.CodeActionKind.SourceFixAll);
    assert.ok(all?.edit, 'all corrections that are certainly meant are offered at once');
    await vscode.workspace.applyEdit(all.edit);
    await until(
      () => findings(document).length === 1,
      () => `there is ${findings(document).join(', ')}`,
    );
    await mend(document, 'unknown-key', /^Write `minutes`$/);
    await untilClean(document);
  });

  it('mends on saving where the author has asked for it', async () => {
    const document = await open(procedure);
    const text = document.getText();
    const editor = vscode.workspace.getConfiguration('editor', { languageId: document.languageId });
    const onSave = { 'source.fixAll': 'explicit' };
    await editor.update('codeActionsOnSave', onSave, vscode.ConfigurationTarget.Global, true);
    try {
      await replace(document, 'minutes: 2', 'Minutes: 2');
      await finding(document, 'unknown-key');
      await document.save();
      assert.equal(document.getText(), text);
    } finally {
      await editor.update('codeActionsOnSave', undefined, vscode.ConfigurationTarget.Global, true);
    }
  });

  it('tells what is wrong, why and what to do, and shows the other place', async () => {
    const document = await open(procedure);
    await replace(document, 'works-again: {', 'look: {');
    const found = await finding(document, 'duplicate-key');
    const [first, ...more] = found.message.split('\n');
    assert.ok(first !== undefined && first.length <= 90, first);
    assert.ok(
      more.some(line => line.startsWith('help: ')),
      found.message,
    );
    const other = found.relatedInformation?.[0]?.location;
    assert.equal(other?.uri.toString(), document.uri.toString());
    assert.equal(document.getText(other?.range), 'look');
  });
});

async function mend(document: vscode.TextDocument, rule: string, title: RegExp): Promise<void> {
  const { range } = await finding(document, rule);
  const actions = await actionsAt(document, range, vscode.CodeActionKind.QuickFix);
  const action = actions.find(one => title.test(one.title));
  assert.ok(action?.edit, `${title} is not among ${actions.map(one => one.title).join(' | ')}`);
  await vscode.workspace.applyEdit(action.edit);
}

async function actionsAt(
  document: vscode.TextDocument,
  range: vscode.Range,
  kind: vscode.CodeActionKind,
): Promise<vscode.CodeAction[]> {
  return vscode.commands.executeCommand('vscode.executeCodeActionProvider', document.uri, range, kind.value);
}

async function without(document: vscode.TextDocument, rule: string): Promise<void> {
  await until(
    () => !findings(document).some(line => line.startsWith(rule)),
    () => `there is still ${findings(document).join(', ')}`,
  );
}

function whole(document: vscode.TextDocument): vscode.Range {
  return new vscode.Range(0, 0, document.lineCount, 0);
}
