import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, file, open, placeOf, replace, services, until } from './support.ts';

const procedure = 'lamp/lamp-dark.procedure.yaml';
const system = 'lamp/lamp.system.yaml';

describe('writing', () => {
  before(services);
  afterEach(closeEditors);

  it('offers the points of the circuit where a lead goes', async () => {
    const document = await open(procedure);
    const labels = await offeredAt(document, placeOf(document, 'red: ', 'red: '.length));
    assert.ok(
      labels.some(label => label.startsWith('R2')),
      `among ${labels.slice(0, 20).join(', ')}`,
    );
  });

  it('offers steps and endings where a branch goes', async () => {
    const document = await open(procedure);
    const labels = await offeredAt(document, placeOf(document, 'within: ', 'within: '.length));
    assert.ok(labels.includes('replace-lamp') && labels.includes('works-again'), `among ${labels.join(', ')}`);
  });

  it('tells at a step what the meter should show', async () => {
    const document = await open(procedure);
    const text = await until(
      async () => {
        const said = await hoverAt(document, placeOf(document, '7.8 V'));
        return said.includes('8.9') ? said : '';
      },
      () => 'the hover does not give the range of the circuit',
    );
    assert.match(text, /7\.8\d V/);
  });

  it('shows the range of the circuit beside a limit', async () => {
    const document = await open(procedure);
    const all = new vscode.Range(0, 0, document.lineCount, 0);
    const labels = await until(
      async () => {
        const hints = await vscode.commands.executeCommand<vscode.InlayHint[]>(
          'vscode.executeInlayHintProvider',
          document.uri,
          all,
        );
        return hints.length > 0 ? hints.map(({ label }) => String(label)) : undefined;
      },
      () => 'there is no hint',
    );
    assert.match(labels.join(), /8\.9\d V/);
  });

  it('goes from a branch to its step, and from a point to the part in the system', async () => {
    const document = await open(procedure);
    const step = await definitionAt(document, placeOf(document, 'all sound: lamp-voltage', 12));
    assert.equal(step?.uri.toString(), document.uri.toString());
    assert.equal(document.lineAt(step?.range.start.line ?? 0).text.trim(), 'lamp-voltage:');
    const part = await definitionAt(document, placeOf(document, 'red: R2.1', 6));
    assert.equal(part?.uri.toString(), file(system).toString());
  });

  it('changes a name in every file', async () => {
    const document = await open(procedure);
    const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
      'vscode.executeDocumentRenameProvider',
      document.uri,
      placeOf(document, 'red: R2.1', 6),
      'E1',
    );
    const changed = edit.entries().map(([uri, edits]) => `${uri.path.split('/').at(-1)} ${edits.length}`);
    assert.deepEqual(changed.sort(), ['lamp-dark.procedure.yaml 3', 'lamp-dim.procedure.yaml 3', 'lamp.system.yaml 3']);
  });

  it('shows what leads to a step, and lists it', async () => {
    const document = await open(procedure);
    const lenses = await until(
      async () => {
        const found = await vscode.commands.executeCommand<vscode.CodeLens[]>(
          'vscode.executeCodeLensProvider',
          document.uri,
          100,
        );
        return found.length > 0 ? found : undefined;
      },
      () => 'there is no lens',
    );
    const line = placeOf(document, '  lamp-voltage:').line;
    const lens = lenses.find(({ range, command }) => range.start.line === line && command?.arguments?.length === 3);
    assert.equal(lens?.command?.command, 'faultwalk.showReferences');
    await vscode.commands.executeCommand(lens.command.command, ...(lens.command.arguments ?? []));
  });

  it('lists steps, endings and parts', async () => {
    const document = await open(procedure);
    const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
      'vscode.executeDocumentSymbolProvider',
      document.uri,
    );
    const names = symbols.flatMap(({ name, children }) => [name, ...children.map(child => child.name)]);
    for (const name of ['steps', 'lamp-voltage', 'endings', 'mend-wires']) {
      assert.ok(names.includes(name), `${name} among ${names.join(', ')}`);
    }
    const found = await vscode.commands.executeCommand<vscode.SymbolInformation[]>(
      'vscode.executeWorkspaceSymbolProvider',
      'lamp-voltage',
    );
    assert.ok(found.some(({ name }) => name === 'lamp-voltage'));
  });

  it('colours by meaning', async () => {
    const document = await open(procedure);
    const tokens = await until(
      () =>
        vscode.commands.executeCommand<vscode.SemanticTokens | undefined>(
          'vscode.provideDocumentSemanticTokens',
          document.uri,
        ),
      () => 'there are no tokens',
    );
    assert.ok(tokens.data.length > 0);
  });

  it('leaves a tidy file as it is, and tidies another without losing its comments', async () => {
    const document = await open(procedure);
    assert.deepEqual(await formatted(document), []);
    await replace(document, 'tools: [multimeter]', 'tools:   [ multimeter ]   # the only one');
    const edits = await until(
      async () => {
        const found = await formatted(document);
        return found.length > 0 ? found : undefined;
      },
      () => 'nothing is tidied',
    );
    const change = new vscode.WorkspaceEdit();
    change.set(document.uri, edits);
    await vscode.workspace.applyEdit(change);
    assert.match(document.getText(), /^tools: \[multimeter\] +# the only one$/m);
  });
});

async function offeredAt(document: vscode.TextDocument, position: vscode.Position): Promise<string[]> {
  const list = await vscode.commands.executeCommand<vscode.CompletionList>(
    'vscode.executeCompletionItemProvider',
    document.uri,
    position,
  );
  return list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
}

async function hoverAt(document: vscode.TextDocument, position: vscode.Position): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    'vscode.executeHoverProvider',
    document.uri,
    position,
  );
  return hovers
    .flatMap(({ contents }) => contents)
    .map(content => (typeof content === 'string' ? content : content.value))
    .join('\n');
}

async function definitionAt(
  document: vscode.TextDocument,
  position: vscode.Position,
): Promise<vscode.Location | undefined> {
  const found = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
    'vscode.executeDefinitionProvider',
    document.uri,
    position,
  );
  const first = found[0];
  if (first === undefined || 'range' in first) return first;
  return new vscode.Location(first.targetUri, first.targetSelectionRange ?? first.targetRange);
}

async function formatted(document: vscode.TextDocument): Promise<vscode.TextEdit[]> {
  const edits = await vscode.commands.executeCommand<vscode.TextEdit[] | undefined>(
    'vscode.executeFormatDocumentProvider',
    document.uri,
    { tabSize: 2, insertSpaces: true },
  );
  return edits ?? [];
}
