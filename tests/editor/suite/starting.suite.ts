import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { extension, open, services, until } from './support.ts';

describe('starting', () => {
  it('does not start before a file of ours is opened', () => {
    assert.equal(extension().isActive, false);
  });

  it('starts with a procedure, and says that it is ready', async () => {
    const document = await open('lamp/lamp-dark.procedure.yaml');
    assert.equal(document.languageId, 'faultwalk-procedure');
    const { status } = await services();
    await until(
      () => status.current.state === 'idle',
      () => `the status says ${JSON.stringify(status.current)}`,
    );
  });

  it('gives each kind of file its own language', async () => {
    assert.equal((await open('lamp/lamp.system.yaml')).languageId, 'faultwalk-system');
    const samples = await vscode.workspace.openTextDocument({ language: 'faultwalk-samples', content: 'format: 1\n' });
    assert.equal(samples.languageId, 'faultwalk-samples');
  });

  it('indents by two spaces and never by tabs', async () => {
    const document = await open('lamp/lamp.system.yaml');
    const editor = vscode.workspace.getConfiguration('editor', document);
    assert.equal(editor.get('tabSize'), 2);
    assert.equal(editor.get('insertSpaces'), true);
  });

  it('starts again on request', async () => {
    const { checker, status } = await services();
    await checker.running;
    const seen: string[] = [];
    const show = status.show;
    status.show = message => {
      seen.push(message.state);
      show(message);
    };
    await vscode.commands.executeCommand('faultwalk.restart');
    await until(
      () => status.current.state === 'idle' && seen.includes('starting'),
      () => `it went through ${seen}`,
    );
    status.show = show;
  });
});
