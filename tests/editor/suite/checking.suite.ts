import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, file, finding, findings, lineOf, open, replace, services, until } from './support.ts';

const procedure = 'lamp/lamp-dark.procedure.yaml';
const system = 'lamp/lamp.system.yaml';

describe('checking', () => {
  before(services);
  afterEach(closeEditors);

  it('finds nothing in a procedure without a mistake', async () => {
    const document = await open(procedure);
    await ready();
    assert.deepEqual(findings(document), []);
  });

  it('marks a mistake at one token while it is typed, and forgets it when it is mended', async () => {
    const document = await open(procedure);
    await replace(document, 'within: replace-lamp', 'within: replace-lmap');
    const found = await finding(document, 'unknown-name');
    assert.equal(document.getText(found.range), 'replace-lmap');
    assert.equal(found.severity, vscode.DiagnosticSeverity.Error);

    await replace(document, 'within: replace-lmap', 'within: replace-lamp');
    await until(
      () => findings(document).length === 0,
      () => `there is still ${findings(document).join(', ')}`,
    );
  });

  it('links a finding to the page of its rule', async () => {
    const document = await open(procedure);
    await replace(document, 'within: replace-lamp', 'within: replace-lmap');
    const { code } = await finding(document, 'unknown-name');
    assert.ok(typeof code === 'object', 'the code has a link');
    assert.equal(code.target.scheme, 'command');
    assert.match(code.target.toString(true), /faultwalk\.showRulePage\?.*"unknown-name"/);
  });

  it('says that a limit contradicts the circuit, with the range of the circuit', async () => {
    const document = await open(procedure);
    await replace(document, '7.8 V .. 9.0 V', '11.0 V .. 12.0 V');
    const line = lineOf(document, 'limits: 11.0 V');
    const found = await until(
      () => vscode.languages.getDiagnostics(document.uri).find(one => one.range.start.line === line),
      () => `nothing is found at the limit; elsewhere ${findings(document).join(', ')}`,
    );
    // 12.2 V .. 13.0 V over 10 Ω and 20 Ω, each ± 5 %: between 12.2 × 19/29.5 = 7.86 V and 13.0 × 21/30.5 = 8.95 V at the lamp.
    assert.match(found.message, /7\.8\d V/);
    assert.match(found.message, /8\.9\d V/);
  });

  it('offers the correction, and the correction takes the mistake away', async () => {
    const document = await open(procedure);
    await replace(document, 'within: replace-lamp', 'within: replace-lmap');
    const found = await finding(document, 'unknown-name');
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      found.range,
    );
    const action = actions.find(({ edit, title }) => edit !== undefined && title.includes('replace-lamp'));
    assert.ok(action?.edit, `one of ${actions.map(({ title }) => title).join(' | ')} names the ending`);
    await vscode.workspace.applyEdit(action.edit);
    await until(
      () => findings(document).length === 0,
      () => `there is still ${findings(document).join(', ')}`,
    );
  });

  it('sees that another file was changed outside the editor', async () => {
    const document = await open(procedure);
    await ready();
    const before = await vscode.workspace.fs.readFile(file(system));
    const changed = new TextDecoder().decode(before).replaceAll('R2', 'E7');
    try {
      await vscode.workspace.fs.writeFile(file(system), new TextEncoder().encode(changed));
      await finding(document, 'unknown-name');
    } finally {
      await vscode.workspace.fs.writeFile(file(system), before);
    }
    await until(
      () => findings(document).length === 0,
      () => `there is still ${findings(document).join(', ')}`,
    );
  });

  it('keeps quiet about a rule that is switched off', async () => {
    const document = await open(procedure);
    await replace(document, 'within: replace-lamp', 'within: replace-lmap');
    await finding(document, 'unknown-name');
    const settings = vscode.workspace.getConfiguration('faultwalk', document.uri);
    await settings.update('rules', { 'unknown-name': 'off' }, vscode.ConfigurationTarget.Global);
    try {
      await until(
        () => !findings(document).some(line => line.startsWith('unknown-name')),
        () => `there is still ${findings(document).join(', ')}`,
      );
    } finally {
      await settings.update('rules', undefined, vscode.ConfigurationTarget.Global);
    }
  });

  it('survives a file that is not YAML at all', async () => {
    const content = '<<<<<<< ours\nsteps: { [ : "\n=======\n\t- &a [*a, *a]\n>>>>>>> theirs\n';
    const uri = file('lamp/torn.procedure.yaml');
    await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(content));
    const broken = await vscode.workspace.openTextDocument(uri);
    await vscode.window.showTextDocument(broken);
    await until(
      () => findings(broken).length > 0,
      () => 'nothing is said about it',
    );
    const { status } = await services();
    assert.notEqual(status.current.state, 'problem');
    await vscode.workspace.fs.delete(uri);
  });
});

async function ready(): Promise<void> {
  const { status } = await services();
  await until(
    () => status.current.state === 'idle',
    () => `the status says ${JSON.stringify(status.current)}`,
  );
}
