import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, file, open, placeOf, replace, revertAll, until, untilClean } from './support.ts';

const system = 'heater/heater.system.yaml';
const cold = {
  variant: 'standard',
  symptom: 'heater stays cold',
  set: [['key', 'run']],
  when: [['H1', 'off']],
};

describe('a procedure drafted from a system', () => {
  afterEach(closeEditors);

  it('opens beside the system, is not saved, and nothing is found in it', async () => {
    const drafted = await draft(cold);
    assert.equal(drafted?.uri.scheme, 'untitled');
    assert.equal(drafted.uri.path, file('heater/heater-stays-cold.procedure.yaml').path);
    assert.equal(drafted.languageId, 'faultwalk-procedure');
    assert.ok(drafted.isUntitled && drafted.isDirty);
    assert.equal(vscode.window.activeTextEditor?.document, drafted);
    placeOf(drafted, '  try-it:\n    title: Confirm the complaint\n');
    await untilClean(drafted);
  });

  it('takes another name where one is taken', async () => {
    const first = await draft(cold);
    const second = await draft(cold);
    assert.notEqual(first?.uri.path, second?.uri.path);
    assert.ok(second?.uri.path.endsWith('/heater-stays-cold-2.procedure.yaml'));
    await closeEditors();
  });

  it('asks in which condition it is seen where a good machine does the same, and leaves nothing where that is dismissed', async () => {
    const before = vscode.workspace.textDocuments.length;
    assert.equal(await through(draft({ ...cold, set: [] }), 'workbench.action.closeQuickOpen'), undefined);
    assert.ok(vscode.workspace.textDocuments.length <= before + 1);
  });

  function draft(complaint: object): Thenable<vscode.TextDocument | undefined> {
    return vscode.commands.executeCommand('faultwalk.draft', file(system), complaint);
  }
});

describe('what to test next', () => {
  let document: vscode.TextDocument;

  beforeEach(async () => {
    document = await open('heater/heater-cold.procedure.yaml');
  });
  afterEach(async () => {
    await revertAll();
    await closeEditors();
  });

  it('stands above each step', async () => {
    const titles = async () => {
      const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>(
        'vscode.executeCodeLensProvider',
        document.uri,
        20,
      );
      return lenses.filter(({ command }) => command?.title === 'What to test next');
    };
    await until(
      async () => (await titles()).length === 2,
      () => 'not every step has it',
    );
  });

  it('is listed, and what is chosen becomes a step behind the one at hand, with the cursor at its first branch', async () => {
    const asked = vscode.commands.executeCommand('faultwalk.next', document.uri.toString(), 'try-it');
    await through(asked, 'workbench.action.acceptSelectedQuickOpenItem');
    placeOf(document, '    limits: from the circuit\n    then:\n      within: \n      otherwise: \n  volts:\n');
    const cursor = vscode.window.activeTextEditor?.selection.active;
    assert.deepEqual(cursor, placeOf(document, '      within: \n', '      within: '.length));
    await replace(document, 'within: \n', 'within: volts\n');
    await replace(document, 'otherwise: \n', 'otherwise: mend-feed\n');
    const name = /^ {2}(at-[^:]+):$/m.exec(document.getText())?.[1];
    assert.ok(name);
    await replace(document, 'go to: volts', `go to: ${name}`);
    await untilClean(document);
  });

  it('is asked about the step at the cursor where no step is named', async () => {
    const editor = vscode.window.activeTextEditor!;
    const there = placeOf(document, 'measure: voltage');
    editor.selection = new vscode.Selection(there, there);
    await through(vscode.commands.executeCommand('faultwalk.next'), 'workbench.action.acceptSelectedQuickOpenItem');
    placeOf(document, '      otherwise: \nendings:\n');
  });
});

/** Does something to the list that a command shows until the command has ended. */
async function through<T>(command: Thenable<T>, doing: string): Promise<T> {
  let hasEnded = false;
  const end = () => {
    hasEnded = true;
  };
  command.then(end, end);
  await until(
    async () => {
      if (!hasEnded) await vscode.commands.executeCommand(doing);
      return hasEnded;
    },
    () => 'the command still waits',
  );
  return command;
}
