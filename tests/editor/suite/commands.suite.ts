import * as assert from 'node:assert/strict';
import * as os from 'node:os';
import * as path from 'node:path';
import * as vscode from 'vscode';
import { closeEditors, exists, extension, services, until } from './support.ts';

describe('commands', () => {
  before(services);
  afterEach(closeEditors);

  it('are all there that the palette offers', async () => {
    const offered: { command: string }[] = extension().packageJSON.contributes.commands;
    const known = await vscode.commands.getCommands(true);
    const missing = offered.map(({ command }) => command).filter(command => !known.includes(command));
    assert.deepEqual(missing, []);
  });

  it('copy the examples, and never over something that is there', async () => {
    const parent = vscode.Uri.file(path.join(os.tmpdir(), `faultwalk-copies-${process.pid}`));
    await vscode.workspace.fs.createDirectory(parent);
    try {
      for (const name of ['faultwalk-examples', 'faultwalk-examples-2']) {
        const copy = await vscode.commands.executeCommand<vscode.Uri>('faultwalk.openExamples', parent, false);
        assert.equal(path.posix.basename(copy.path), name);
        assert.ok(await exists(vscode.Uri.joinPath(copy, 'loader/loader-aux.system.yaml')), `${name} has the loader`);
      }
    } finally {
      await vscode.workspace.fs.delete(parent, { recursive: true });
    }
  });

  it('show the page of a rule', async () => {
    await vscode.commands.executeCommand('faultwalk.showRulePage', 'unreachable-step');
    await until(
      () => vscode.window.tabGroups.activeTabGroup.activeTab?.label.includes('unreachable-step'),
      () => `the tab is ${vscode.window.tabGroups.activeTabGroup.activeTab?.label}`,
    );
  });

  it('have a page for every rule that can be set', async () => {
    const sections: { title: string; properties: Record<string, { properties?: object }> }[] =
      extension().packageJSON.contributes.configuration;
    const ids = sections.flatMap(({ properties }) => Object.keys(properties['faultwalk.rules']?.properties ?? {}));
    assert.ok(ids.length > 0);
    for (const id of ids) {
      const page = vscode.Uri.joinPath(extension().extensionUri, 'dist/rules', `${id}.md`);
      assert.ok(await exists(page), `there is a page about ${id}`);
    }
  });
});
