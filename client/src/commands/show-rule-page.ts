import * as vscode from 'vscode';
import type { Command } from './command.ts';

/** Opens the page about a rule, which is shipped with the extension; without an id it asks which one. */
export const showRulePage: Command = {
  id: 'faultwalk.showRulePage',
  run: async ({ context }, ...args) => {
    const folder = vscode.Uri.joinPath(context.extensionUri, 'dist', 'rules');
    const ids = await rulesIn(folder);
    const id = typeof args[0] === 'string' ? args[0] : await vscode.window.showQuickPick(ids, { title: 'Which rule?' });
    if (id === undefined) return;
    if (!ids.includes(id)) {
      await vscode.window.showInformationMessage(`There is no page about \`${id}\``);
      return;
    }
    await vscode.commands.executeCommand('markdown.showPreview', vscode.Uri.joinPath(folder, `${id}.md`));
  },
};

async function rulesIn(folder: vscode.Uri): Promise<string[]> {
  const entries = await vscode.workspace.fs.readDirectory(folder).then(
    found => found,
    () => [],
  );
  return entries
    .map(([name]) => name)
    .filter(name => name.endsWith('.md'))
    .map(name => name.slice(0, -'.md'.length))
    .sort();
}
