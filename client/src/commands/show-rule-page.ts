import * as vscode from 'vscode';
import type { Command } from './command.ts';

/** The page that lists all rules, beside those about a single one. */
const all = 'index';

/** Opens the page about a rule, which is shipped with the extension; without an id it asks which one. */
export const showRulePage: Command = {
  id: 'faultwalk.showRulePage',
  run: async ({ context }, ...args) => {
    const folder = vscode.Uri.joinPath(context.extensionUri, 'dist', 'rules');
    const ids = await rulesIn(folder);
    const id = typeof args[0] === 'string' ? args[0] : await askWhich(ids);
    if (id === undefined) return;
    if (!ids.includes(id)) {
      await vscode.window.showInformationMessage(`There is no page about \`${id}\``);
      return;
    }
    await vscode.commands.executeCommand('markdown.showPreview', vscode.Uri.joinPath(folder, `${id}.md`));
  },
};

async function askWhich(ids: readonly string[]): Promise<string | undefined> {
  const rules = ids.filter(id => id !== all).map(id => ({ label: id, id }));
  const picked = await vscode.window.showQuickPick([{ label: 'All rules', id: all }, ...rules], {
    title: 'Which rule?',
  });
  return picked?.id;
}

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
