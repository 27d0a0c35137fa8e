import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, file, open, placeOf, replace, revertAll, services, untilClean } from './support.ts';

const procedure = 'loader/aux-flow-drops-out.procedure.yaml';
const system = 'loader/loader-aux.system.yaml';
const samples = 'loader/aux-flow-drops-out.samples.yaml';
const loader = [procedure, 'loader/aux-flow-never-starts.procedure.yaml', system];

describe('naming', () => {
  before(services);
  afterEach(closeEditors);

  it('changes a part in every file, costs no finding, and can be undone', async () => {
    const documents = await Promise.all(loader.map(name => vscode.workspace.openTextDocument(file(name))));
    const document = await open(procedure);
    const before = documents.map(one => one.getText());
    await rename(document, 'inspect: [S6', 'inspect: ['.length, 'key pad 7');
    for (const [i, one] of documents.entries()) assert.notEqual(one.getText(), before[i], one.uri.path);
    for (const one of documents) assert.doesNotMatch(one.getText(), /\bS6\b/, one.uri.path);
    for (const one of documents) await untilClean(one);

    for (const [i, one] of documents.entries()) {
      await vscode.window.showTextDocument(one);
      if (one.getText() !== before[i]) await vscode.commands.executeCommand('undo');
      assert.equal(one.getText(), before[i], one.uri.path);
    }
    await untilClean(document);
    await revertAll();
  });

  it('changes a step where it is declared, where branches lead to it, and in the samples', async () => {
    const document = await open(procedure);
    const edit = await renaming(
      document,
      placeOf(document, 'all sound: try-it', 'all sound: '.length),
      'see it happen',
    );
    const changed = edit.entries().map(([uri]) => uri.path.split('/').at(-1));
    assert.deepEqual(changed.sort(), [samples, procedure].map(name => name.split('/').at(-1)).sort());
    await applied(edit);
    assert.match(document.getText(), /^ {2}see it happen:$/m);
    await untilClean(document);
    await revertAll();
  });

  it('changes a connector in points, in wires and behind a side', async () => {
    const document = await open(system);
    const places = await referencesTo(document, '  X12: {', 2);
    await rename(document, '  X12: {', 2, 'X99');
    const texts = await Promise.all(loader.map(name => vscode.workspace.openTextDocument(file(name))));
    const written = texts.reduce((sum, one) => sum + [...one.getText().matchAll(/\bX99\b/g)].length, 0);
    assert.equal(written, places.length);
    for (const one of texts) assert.doesNotMatch(one.getText(), /\bX12[/\s,\]]/, one.uri.path);
    await untilClean(document);
    await revertAll();
  });

  it('keeps the quotes around a name', async () => {
    const document = await open('lamp/lamp-dark.procedure.yaml');
    await replace(document, 'red: R2.1', 'red: "R2.1"');
    await rename(document, 'red: "R2.1"', 'red: "'.length, 'E1');
    assert.match(document.getText(), /red: "E1\.1"/);
    await untilClean(document);
    await revertAll();
  });

  it('says why a name cannot be changed, and what it must not be', async () => {
    const document = await open('lamp/lamp-dark.procedure.yaml');
    const at = placeOf(document, 'red: R2.1', 'red: '.length);
    await assert.rejects(renaming(document, at, 'R1'), /There is already a part `R1`/);
    await assert.rejects(renaming(document, at, 'R:2'), /A name holds no `:`/);
    await assert.rejects(renaming(document, placeOf(document, 'minutes: 2', 1), 'x'), /no name here/);
  });

  it('finds every place that names a thing, in all files', async () => {
    const document = await open(system);
    const places = await referencesTo(document, '- W41: ', 2);
    const files = new Set(places.map(({ uri }) => uri.path));
    for (const name of loader) assert.ok(files.has(file(name).path), `W41 is not found in ${name}`);
    for (const { uri, range } of places)
      assert.equal((await vscode.workspace.openTextDocument(uri)).getText(range), 'W41');
  });

  it('goes from a sample to the step, and from a file name to the file', async () => {
    const document = await open(samples);
    const step = /^ {6}([\w-]+): /m.exec(document.getText())?.[1] ?? 'look';
    const places = await definitions(document, placeOf(document, `${step}: `, 1));
    assert.equal(places[0]?.path, file(procedure).path);
    const links = await vscode.commands.executeCommand<vscode.DocumentLink[]>(
      'vscode.executeLinkProvider',
      document.uri,
    );
    assert.deepEqual(
      links.map(({ target }) => target?.path),
      [file(procedure).path],
    );
  });
});

async function rename(document: vscode.TextDocument, text: string, offset: number, to: string): Promise<void> {
  await applied(await renaming(document, placeOf(document, text, offset), to));
}

async function renaming(document: vscode.TextDocument, at: vscode.Position, to: string): Promise<vscode.WorkspaceEdit> {
  return vscode.commands.executeCommand('vscode.executeDocumentRenameProvider', document.uri, at, to);
}

async function applied(edit: vscode.WorkspaceEdit): Promise<void> {
  assert.ok(await vscode.workspace.applyEdit(edit));
}

function referencesTo(document: vscode.TextDocument, text: string, offset: number): Thenable<vscode.Location[]> {
  const at = placeOf(document, text, offset);
  return vscode.commands.executeCommand('vscode.executeReferenceProvider', document.uri, at);
}

async function definitions(document: vscode.TextDocument, at: vscode.Position): Promise<vscode.Uri[]> {
  const found = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
    'vscode.executeDefinitionProvider',
    document.uri,
    at,
  );
  return found.map(place => ('uri' in place ? place.uri : place.targetUri));
}
