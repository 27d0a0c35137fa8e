import * as assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { CoverageState } from '../../../server/src/protocol/coverage.ts';
import { closeEditors, open, placeOf, replace, services, until } from './support.ts';

const procedure = 'lamp/lamp-dark.procedure.yaml';

describe('where every fault ends', () => {
  let document: vscode.TextDocument;

  beforeEach(async () => {
    document = await open(procedure);
    await vscode.commands.executeCommand('faultwalk.showCoverage', document.uri);
    await shows(state => !state.isEarlier);
  });
  afterEach(closeEditors);

  it('opens beside the text and leaves the cursor in it', async () => {
    const tabs = () => vscode.window.tabGroups.all.map(group => group.tabs.map(({ label }) => label).join());
    await until(
      () => tabs().join(' | ') === 'lamp-dark.procedure.yaml | Coverage lamp-dark',
      () => `the groups are ${tabs().join(' | ')}`,
    );
    assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), document.uri.toString());
  });

  it('is of an earlier text until every fault has been walked anew', async () => {
    await replace(document, 'replace-lamp: { replace: [R2]', 'replace-lamp: { replace: [R1]');
    await shows(state => !state.isEarlier && state.ends.some(({ title }) => title === 'Replace R1'));
  });

  it('lists walks, and steps through one of them in the preview', async () => {
    const { coverage, previews } = await services();
    await coverage.act(document.uri, { type: 'list', choice: { owner: 'R2', at: 'replace-lamp' } });
    const { list } = await shows(state => state.list !== undefined);
    const [walk] = list!.walks;
    assert.ok(walk);
    await coverage.act(document.uri, { ...walk, type: 'walk' });
    await until(
      () => previews.stateOf(document.uri)?.atHand.name === walk.at,
      () => `the preview stands at ${previews.stateOf(document.uri)?.atHand.name}, not at ${walk.at}`,
    );
    assert.equal(previews.stateOf(document.uri)?.history.length, walk.way.length);
  });

  it('leaves the faults that are looked for', async () => {
    const { coverage } = await services();
    await coverage.act(document.uri, { type: 'find', text: 'lamp switch' });
    await shows(({ matrix }) => matrix.rows.map(({ owner }) => owner).join() === 'S1');
  });

  it('shows an ending in the text', async () => {
    const { coverage } = await services();
    await coverage.act(document.uri, { type: 'show', at: 'replace-lamp' });
    await until(
      () => vscode.window.activeTextEditor?.selection.active.line === placeOf(document, '  replace-lamp: {').line,
      () => `the cursor is in line ${vscode.window.activeTextEditor?.selection.active.line}`,
    );
  });

  async function shows(wanted: (state: CoverageState) => boolean): Promise<CoverageState> {
    const { coverage } = await services();
    const state = () => coverage.stateOf(document.uri);
    await until(
      () => state() && wanted(state()!),
      () => `it shows ${state()?.summary ?? 'nothing'}`,
    );
    return state()!;
  }
});
