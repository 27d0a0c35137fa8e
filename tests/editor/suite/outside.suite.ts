import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import {
  closeEditors,
  exists,
  file,
  finding,
  findings,
  open,
  replace,
  services,
  until,
  untilClean,
} from './support.ts';

const procedure = 'lamp/lamp-dark.procedure.yaml';
const system = 'lamp/lamp.system.yaml';

describe('what happens outside', () => {
  before(services);
  afterEach(closeEditors);

  it('reaches the files that are not open, and a new file is checked where it lies', async () => {
    const uri = file('lamp/new.procedure.yaml');
    const text = await textOf(file(procedure));
    await write(uri, text.replace('within: replace-lamp', 'within: replace-lmap'));
    try {
      await foundIn(uri, 'unknown-name');
    } finally {
      await vscode.workspace.fs.delete(uri);
    }
    await nothingIn(uri);
  });

  it('a system that is deleted is missed in the procedure, and found again when it is back', async () => {
    // Files of its own: a system that an earlier test has opened may still be open, and what is open wins over the disk.
    const own = file('lamp/own.system.yaml');
    const user = file('lamp/own.procedure.yaml');
    const text = await textOf(file(system));
    await write(own, text);
    await write(user, (await textOf(file(procedure))).replace('lamp.system.yaml', 'own.system.yaml'));
    try {
      const document = await open('lamp/own.procedure.yaml');
      await untilClean(document);
      await vscode.workspace.fs.delete(own);
      const found = await finding(document, 'missing-file');
      assert.equal(document.getText(found.range), 'own.system.yaml');
      await write(own, text);
      await untilClean(document);
    } finally {
      await vscode.workspace.fs.delete(user);
      await vscode.workspace.fs.delete(own);
    }
  });

  it('a file that is deleted while it is open is still checked, and forgotten when it is closed', async () => {
    const uri = file('lamp/short-lived.procedure.yaml');
    await write(uri, await textOf(file(procedure)));
    // A text that an extension opens stays open for minutes; one that the author opens is closed with its tab.
    await vscode.commands.executeCommand('vscode.open', uri);
    const document = vscode.window.activeTextEditor?.document;
    assert.equal(document?.uri.path, uri.path);
    await replace(document, 'within: replace-lamp', 'within: replace-lmap');
    await finding(document, 'unknown-name');
    await vscode.workspace.fs.delete(uri);
    await replace(document, 'all sound: lamp-voltage', 'all sound: lamp-volts');
    await until(
      () => findings(document).filter(line => line.startsWith('unknown-name')).length === 2,
      () => `there is ${findings(document).join(', ')}`,
    );
    await document.save();
    await vscode.workspace.fs.delete(uri);
    await closeEditors();
    await nothingIn(uri);
  });

  it('what is typed in a system shows in its procedures before it is saved', async () => {
    const document = await open(procedure);
    await untilClean(document);
    const other = await open(system);
    await replace(
      other,
      'R2: { kind: resistor, title: Lamp element, resistance: 20 Ω ± 5 % }',
      'R2: { kind: resistor, title: Lamp element, resistance: 90 Ω ± 5 % }',
    );
    await finding(document, 'limits-contradict-circuit');
    await vscode.commands.executeCommand('workbench.action.files.revert');
    await untilClean(document);
  });

  it('a file of more than ten million characters is one finding, and costs nothing else', async () => {
    const uri = file('lamp/huge.system.yaml');
    await write(uri, `${await textOf(file(system))}${'# padding\n'.repeat(1_050_000)}`);
    try {
      await foundIn(uri, 'file-too-large');
      assert.equal(vscode.languages.getDiagnostics(uri).length, 1);
    } finally {
      await vscode.workspace.fs.delete(uri);
    }
    await nothingIn(uri);
  });

  it('a binary file is one finding', async () => {
    const uri = file('lamp/picture.procedure.yaml');
    await vscode.workspace.fs.writeFile(
      uri,
      Uint8Array.from({ length: 4096 }, (_, i) => (i * 7919) % 256),
    );
    try {
      await until(
        () => vscode.languages.getDiagnostics(uri).length > 0,
        () => 'nothing is said about it',
      );
      const found = vscode.languages.getDiagnostics(uri).map(({ message }) => message.split('\n')[0]);
      assert.equal(found.length, 1, found.join(' | '));
    } finally {
      await vscode.workspace.fs.delete(uri);
    }
  });

  it('a text that only looks at another version of a file is not checked a second time', async () => {
    const past = vscode.workspace.registerTextDocumentContentProvider('past', {
      provideTextDocumentContent: async () =>
        (await textOf(file(procedure))).replace('within: replace-lamp', 'within: x'),
    });
    try {
      const uri = file(procedure).with({ scheme: 'past' });
      const document = await vscode.workspace.openTextDocument(uri);
      assert.equal(document.languageId, 'faultwalk-procedure');
      await vscode.window.showTextDocument(document);
      const other = await open(procedure);
      await replace(other, 'within: replace-lamp', 'within: replace-lmap');
      await finding(other, 'unknown-name');
      assert.deepEqual(vscode.languages.getDiagnostics(uri), []);
    } finally {
      past.dispose();
    }
  });

  it('a checker that dies comes back by itself', async () => {
    const { checker, status } = await services();
    const client = await checker.running;
    const { pid } = (client as unknown as { _serverProcess: { pid: number } })._serverProcess;
    const seen: string[] = [];
    const show = status.show;
    status.show = message => {
      seen.push(message.state);
      show(message);
    };
    process.kill(pid, 'SIGKILL');
    const document = await open(procedure);
    await until(
      () => seen.includes('starting') && status.current.state === 'idle',
      () => `it went through ${seen}`,
    );
    status.show = show;
    await replace(document, 'within: replace-lamp', 'within: replace-lmap');
    await finding(document, 'unknown-name');
    assert.ok(await exists(file(procedure)));
  });
});

async function textOf(uri: vscode.Uri): Promise<string> {
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
}

function write(uri: vscode.Uri, text: string): Thenable<void> {
  return vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
}

function codesIn(uri: vscode.Uri): unknown[] {
  return vscode.languages.getDiagnostics(uri).map(({ code }) => (typeof code === 'object' ? code.value : code));
}

async function foundIn(uri: vscode.Uri, rule: string): Promise<void> {
  await until(
    () => codesIn(uri).includes(rule),
    () => `there is ${codesIn(uri).join(', ') || 'nothing'} in ${uri.path}`,
  );
}

async function nothingIn(uri: vscode.Uri): Promise<void> {
  await until(
    () => codesIn(uri).length === 0,
    () => `there is still ${codesIn(uri).join(', ')} in ${uri.path}`,
  );
}
