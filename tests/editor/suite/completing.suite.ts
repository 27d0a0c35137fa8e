import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, findings, open, placeOf, replace, services, until } from './support.ts';

const procedure = 'lamp/lamp-dark.procedure.yaml';
const system = 'lamp/lamp.system.yaml';

describe('completing', () => {
  before(services);
  afterEach(closeEditors);

  it('writes a whole step on an empty line, in the right columns', async () => {
    const document = await open(procedure);
    await replace(document, '  works-again: {', '  \n  works-again: {');
    await take(document, placeOf(document, '  \n  works-again', 2), '`measure` step');
    assert.match(
      document.getText(),
      /^ {2}measure:\n {4}title: title\n {4}set: \{ key: run \}\n {4}measure: voltage\n {4}red: point\n {4}black: point\n {4}limits: limits\n {4}then:\n {6}within: step\n {6}otherwise: step\n {2}works-again:/m,
    );
    await noMistakeOfShape(document);
  });

  it('writes a key with its value inside a step', async () => {
    const document = await open(procedure);
    await replace(document, '    minutes: 2\n', '    minutes: 2\n    \n');
    await take(document, placeOf(document, '    minutes: 2\n    \n', 19), 'cautions');
    assert.match(document.getText(), /^ {4}cautions: \[ \{ danger: text \} \]$/m);
    await noMistakeOfShape(document);
  });

  it('writes a part, and a wire behind its dash', async () => {
    const document = await open(system);
    await replace(document, '\ngrounds:', '  \ngrounds:');
    await take(document, placeOf(document, '  \ngrounds', 2), 'relay');
    assert.match(document.getText(), /^ {2}K1: \{? ?kind: relay|^ {2}K1:\n {4}kind: relay/m);
    await replace(document, '  - W6:', '  - \n  - W6:');
    await take(document, placeOf(document, '  - \n', 4), 'wire');
    assert.match(document.getText(), /^ {2}- W1: .* to .*mm².*$/m);
    await noMistakeOfShape(document);
  });

  it('writes a name inside braces and brackets', async () => {
    const document = await open(procedure);
    await replace(document, '[W4, W5, R2]', '[W4, W5, ]');
    await take(document, placeOf(document, '[W4, W5, ', 9), 'R2');
    assert.match(document.getText(), /inspect: \[W4, W5, R2\]/);
    await replace(document, 'mend: [W4, W5], ', 'mend: [W4, ], ');
    await take(document, placeOf(document, 'mend: [W4, ', 11), 'W5');
    assert.match(document.getText(), /mend-wires: \{ mend: \[W4, W5\], confirm/);
    await replace(document, 'set: { key: run }', 'set: { key:  }');
    await take(document, placeOf(document, '{ key: ', 7), 'run');
    assert.match(document.getText(), /set: \{ key: run \}/);
    await noMistakeOfShape(document);
  });

  it('writes the name of a step that is typed half, and only that', async () => {
    const document = await open(procedure);
    await replace(document, 'all sound: lamp-voltage', 'all sound: lamp-vo');
    await take(document, placeOf(document, 'all sound: lamp-vo', 18), 'lamp-voltage');
    assert.match(document.getText(), /^ {6}all sound: lamp-voltage$/m);
  });

  it("offers the circuit's range first, and units behind a number", async () => {
    const document = await open(procedure);
    await replace(document, 'limits: 7.8 V .. 9.0 V', 'limits: ');
    const [first] = await offered(document, placeOf(document, 'limits: ', 8));
    assert.match(labelOf(first), /^7\.8\d V \.\. 8\.9\d V$/);
    await replace(document, 'limits: ', 'limits: 7');
    const labels = (await offered(document, placeOf(document, 'limits: 7', 9))).map(labelOf);
    assert.ok(labels.includes('V') && labels.includes('mV') && !labels.includes('Ω'), labels.join(', '));
  });

  it('explains what it offers', async () => {
    const document = await open(procedure);
    await replace(document, '    minutes: 2\n', '    minutes: 2\n    \n');
    const at = placeOf(document, '    minutes: 2\n    \n', 19);
    const items = await offered(document, at, 100);
    const item = items.find(one => labelOf(one) === 'disconnect');
    const { documentation } = item ?? {};
    const text = typeof documentation === 'string' ? documentation : documentation?.value;
    assert.ok(text !== undefined && text.length > 20, `about \`disconnect\` it says ${text}`);
  });
});

async function offered(
  document: vscode.TextDocument,
  at: vscode.Position,
  resolved = 0,
): Promise<vscode.CompletionItem[]> {
  const { items } = await vscode.commands.executeCommand<vscode.CompletionList>(
    'vscode.executeCompletionItemProvider',
    document.uri,
    at,
    undefined,
    resolved,
  );
  return items;
}

/** Takes what is offered under this label, as the editor itself would write it. */
async function take(document: vscode.TextDocument, at: vscode.Position, label: string): Promise<void> {
  const items = await offered(document, at);
  const item = items.find(one => labelOf(one) === label);
  assert.ok(item, `\`${label}\` is not among ${items.map(labelOf).join(', ')}`);
  const editor = vscode.window.activeTextEditor;
  assert.equal(editor?.document, document);
  const { insertText = label, range } = item;
  const where = range === undefined || range instanceof vscode.Range ? range : range.replacing;
  const snippet =
    typeof insertText === 'string' ? new vscode.SnippetString(insertText.replace(/[\\$}]/g, '\\$&')) : insertText;
  editor.selection = new vscode.Selection(at, at);
  assert.ok(await editor.insertSnippet(snippet, where));
  await vscode.commands.executeCommand('leaveSnippet');
}

function labelOf({ label }: vscode.CompletionItem): string {
  return typeof label === 'string' ? label : label.label;
}

/** Names that are still to be written are findings; the shape of what was written is right at once. */
async function noMistakeOfShape(document: vscode.TextDocument): Promise<void> {
  const ofShape = /^(yaml|unknown-key|missing-key|wrong-shape|duplicate-key|key-not-text|indent|empty-value)/;
  const mistakes = () => findings(document).filter(line => ofShape.test(line));
  const { status } = await services();
  await until(
    () => status.current.state === 'idle' && mistakes().length === 0,
    () => `there is ${mistakes().join(', ')}; the status says ${JSON.stringify(status.current)}`,
  );
}
