import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, open, placeOf, replace, services, until } from './support.ts';

const procedure = 'lamp/lamp-dark.procedure.yaml';

describe('the preview', () => {
  let document: vscode.TextDocument;

  beforeEach(async () => {
    document = await open(procedure);
    await vscode.commands.executeCommand('faultwalk.openPreview', document.uri);
    await standsAt('look');
  });
  afterEach(closeEditors);

  it('opens beside the text and leaves the cursor in it', async () => {
    const tabs = () => vscode.window.tabGroups.all.map(group => group.tabs.map(({ label }) => label).join());
    await until(
      () => tabs().join(' | ') === 'lamp-dark.procedure.yaml | Preview lamp-dark',
      () => `the groups are ${tabs().join(' | ')}`,
    );
    assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), document.uri.toString());
  });

  it('follows an answer and a reading to an ending, and goes back', async () => {
    await answer('all sound');
    await standsAt('lamp-voltage');
    await answer('8.4 V');
    await standsAt('replace-lamp');
    const { previews } = await services();
    await previews.act(document.uri, { type: 'back' });
    await standsAt('lamp-voltage');
  });

  it('shows in the text the step that it stands at', async () => {
    await answer('all sound');
    await standsAt('lamp-voltage');
    await until(
      () => cursorLine() === placeOf(document, '  lamp-voltage:').line,
      () => `the cursor is in line ${cursorLine() + 1}`,
    );
  });

  it('shows the step that the cursor stands in', async () => {
    const at = placeOf(document, 'Switch the lamp on');
    const editor = vscode.window.activeTextEditor;
    assert.ok(editor);
    editor.selection = new vscode.Selection(at, at);
    await standsAt('works-again');
  });

  it('does not take a reading that it cannot understand', async () => {
    await answer('all sound');
    await standsAt('lamp-voltage');
    await answer('bright');
    const { previews } = await services();
    await until(
      () => previews.stateOf(document.uri)?.refused,
      () => 'nothing is said about it',
    );
    await standsAt('lamp-voltage');
  });

  it('begins at the step that a lens names', async () => {
    await vscode.commands.executeCommand('faultwalk.openPreview', document.uri.toString(), 'lamp-voltage');
    await standsAt('lamp-voltage');
    const { previews } = await services();
    assert.equal(previews.stateOf(document.uri)?.sheet.isAtHand, true);
  });

  it('follows the text while it is changed, and keeps what still holds', async () => {
    await answer('all sound');
    await standsAt('lamp-voltage');
    await replace(document, '7.8 V .. 9.0 V', '7.6 V .. 9.2 V');
    const { previews } = await services();
    const limits = () => previews.stateOf(document.uri)?.sheet.rows.find(({ label }) => label === 'Limits');
    await until(
      () => limits()?.entries[0]?.text === '7.6 V .. 9.2 V',
      () => `the limits are ${limits()?.entries[0]?.text}`,
    );
    await replace(document, 'all sound: lamp-voltage', 'all is sound: lamp-voltage');
    await standsAt('look');
  });

  async function answer(text: string): Promise<void> {
    const { previews } = await services();
    const at = previews.stateOf(document.uri)?.sheet.name ?? '';
    await previews.act(document.uri, { type: 'answer', at, text });
  }

  async function standsAt(name: string): Promise<void> {
    const { previews } = await services();
    await until(
      () => previews.stateOf(document.uri)?.sheet.name === name,
      () => `it stands at ${previews.stateOf(document.uri)?.sheet.name}`,
    );
  }

  function cursorLine(): number {
    return vscode.window.visibleTextEditors[0]?.selection.active.line ?? -1;
  }
});
