import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeEditors, lineOf, open, placeOf, replace, revertAll, services, until, untilClean } from './support.ts';

const procedure = 'loader/aux-flow-drops-out.procedure.yaml';

describe('reading', () => {
  before(services);
  afterEach(closeEditors);

  it('folds steps, and marks every place of the name at the cursor', async () => {
    const document = await open(procedure);
    const folds = await vscode.commands.executeCommand<vscode.FoldingRange[]>(
      'vscode.executeFoldingRangeProvider',
      document.uri,
    );
    const line = lineOf(document, '  sense-idle:');
    assert.equal(folds.find(({ start }) => start === line)?.end, lineOf(document, '  seat-seen:') - 1);

    const marks = await vscode.commands.executeCommand<vscode.DocumentHighlight[]>(
      'vscode.executeDocumentHighlights',
      document.uri,
      placeOf(document, '  sense-idle:', 4),
    );
    assert.ok(marks.length > 1);
    for (const { range } of marks) assert.equal(document.getText(range), 'sense-idle');
  });

  it('counts the branches into a step, and not where a finding about it is silenced', async () => {
    const document = await open('lamp/lamp-dark.procedure.yaml');
    await replace(document, 'endings:', 'allow:\n  single-answer: { in: [lamp-voltage], because: Tried }\nendings:');
    const line = lineOf(document, '  lamp-voltage:');
    const lens = await until(
      async () => {
        const found = await vscode.commands.executeCommand<vscode.CodeLens[]>(
          'vscode.executeCodeLensProvider',
          document.uri,
        );
        return found.find(({ range, command }) => range.start.line === line && command?.title.includes('here'));
      },
      () => 'there is no lens above the step',
    );
    assert.equal(lens.command?.title, '1 place leads here');
    await revertAll();
  });

  it('explains a part, a branch, a key and a step', async () => {
    const document = await open(procedure);
    await untilClean(document);
    assert.match(await hoverAt(document, 'inspect: [S6', 11), /S6.* · part[\s\S]*kind: coded switches/);
    assert.match(await hoverAt(document, '4.8 V .. 5.5 V: ', 2), /Taken by a reading [^,]+, and leads to/);
    assert.match(await hoverAt(document, '    provoke: ', 6), /\*\*provoke\*\*/);
    const step = await hoverAt(document, '  seat-signal:', 4);
    assert.match(step, /lowest with[\s\S]*highest with/);
    assert.doesNotMatch(step, /measure: voltage/, 'the text that stands there is not repeated');
  });

  it('puts what the circuit gives beside the limits of every measuring step in sight', async () => {
    const document = await open(procedure);
    await untilClean(document);
    const first = lineOf(document, '  sense-idle:');
    const within = new vscode.Range(first, 0, lineOf(document, '  record-drive:'), 0);
    const hints = await vscode.commands.executeCommand<vscode.InlayHint[]>(
      'vscode.executeInlayHintProvider',
      document.uri,
      within,
    );
    const hinted = hints.map(({ position }) => position.line);
    for (let line = first; line < within.end.line; line++) {
      const isLimit = /^ {4}(limits|specification): /.test(document.lineAt(line).text);
      assert.equal(hinted.includes(line), isLimit, `line ${line + 1}: ${document.lineAt(line).text}`);
    }
  });

  it('selects the value, then its entry, then the step around', async () => {
    const document = await open(procedure);
    const [range] = await vscode.commands.executeCommand<vscode.SelectionRange[]>(
      'vscode.executeSelectionRangeProvider',
      document.uri,
      [placeOf(document, 'red: A1.14', 6)],
    );
    const texts: string[] = [];
    for (let at: vscode.SelectionRange | undefined = range; at; at = at.parent) texts.push(document.getText(at.range));
    assert.ok(texts.includes('red: A1.14 (back-probe)'), texts.slice(0, 4).join(' | '));
    assert.ok(texts.some(text => text.startsWith('sense-idle:')));
  });
});

async function hoverAt(document: vscode.TextDocument, text: string, offset: number): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    'vscode.executeHoverProvider',
    document.uri,
    placeOf(document, text, offset),
  );
  const contents = hovers.flatMap(hover => hover.contents);
  return contents.map(content => (typeof content === 'string' ? content : content.value)).join('\n');
}
