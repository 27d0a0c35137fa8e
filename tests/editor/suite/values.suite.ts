import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, open, placeOf, replace, services, until } from './support.ts';

const system = 'lamp/lamp.system.yaml';

describe('the values table', () => {
  let document: vscode.TextDocument;

  beforeEach(async () => {
    document = await open(system);
    await vscode.commands.executeCommand('faultwalk.showValues', document.uri);
    await shows('R1.1 to R1.2', '10 Ω');
  });
  afterEach(closeEditors);

  it('opens beside the text and leaves the cursor in it', async () => {
    const tabs = () => vscode.window.tabGroups.all.map(group => group.tabs.map(({ label }) => label).join());
    await until(
      () => tabs().join(' | ') === 'lamp.system.yaml | Values lamp',
      () => `the groups are ${tabs().join(' | ')}`,
    );
    assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), document.uri.toString());
  });

  it('follows the text while it is changed', async () => {
    await replace(document, 'resistance: 10 Ω', 'resistance: 12 Ω');
    await shows('R1.1 to R1.2', '12 Ω');
  });

  it('shows in the text what a place belongs to', async () => {
    const { values } = await services();
    await values.act(document.uri, { type: 'show', point: 'R1.1' });
    await until(
      () => vscode.window.activeTextEditor?.selection.active.line === placeOf(document, '  R1:').line,
      () => `the cursor is in line ${vscode.window.activeTextEditor?.selection.active.line}`,
    );
  });

  it('puts itself on the clipboard', async () => {
    const { values } = await services();
    await values.act(document.uri, { type: 'copy', form: 'markdown' });
    assert.match(await vscode.env.clipboard.readText(), /\| R1\.1 to R1\.2 \|/);
  });

  async function shows(leads: string, nominal: string): Promise<void> {
    const { values } = await services();
    const lines = () => values.stateOf(document.uri)?.sections.flatMap(({ rows }) => rows) ?? [];
    const found = () => lines().find(line => line.leads === leads)?.readings[0]?.nominal;
    await until(
      () => found() === nominal,
      () => `${leads} is ${found()}`,
    );
  }
});
