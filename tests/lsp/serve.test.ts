import { afterEach, describe, expect, it } from 'vitest';
import type {
  CodeAction,
  CompletionItem,
  Diagnostic,
  Hover,
  InlayHint,
  WorkspaceEdit,
} from 'vscode-languageserver/node';
import type { FileText } from '../../server/src/disk/files.ts';
import { lampProcedure, lampSamples, lampSystem } from '../features/support.ts';
import { type Client, type ClientOptions, memory, start } from './client.ts';

const system = 'file:///project/lamp.system.yaml';
const procedure = 'file:///project/lamp-dark.procedure.yaml';
const samples = 'file:///project/lamp-dark.samples.yaml';

let client: Client;
afterEach(() => client.stop());

/** Whether a finding is about this name. */
function about(name: string): (found: Diagnostic) => boolean {
  return ({ message }) => String(message).includes(name);
}

function lampFiles(): Map<string, string> {
  return new Map([
    [system, lampSystem],
    [procedure, lampProcedure],
    [samples, lampSamples],
  ]);
}

async function started(
  files: Map<string, string | FileText> = lampFiles(),
  options: Partial<ClientOptions> = {},
): Promise<Map<string, string | FileText>> {
  client = await start({ files: memory(files), ...options });
  return files;
}

const unknownTarget = lampProcedure.replace('all sound: volts', 'all sound: vollts');

describe('findings', () => {
  it('come for files that are not open, with code, page and text of three parts', async () => {
    await started(new Map([...lampFiles(), [procedure, unknownTarget]]));
    const [found] = (await client.findings(procedure)).filter(about('vollts'));
    expect(found).toMatchObject({ source: 'faultwalk', severity: 1, range: { start: { line: 16, character: 17 } } });
    expect(found.codeDescription?.href).toBe(`command:page?${found.code}`);
    expect(found.message).toMatch(/\nhelp: /);
    expect(client.statuses.at(-1)?.text).toMatch(/^\d+ findings? in \d files?$/);
    expect(client.statuses.some(status => /^Checking \d files?$/.test(status.text))).toBe(true);
  });

  it('go and come with edits, and carry the version of the text', async () => {
    await started();
    client.open(procedure, lampProcedure);
    await client.rest();
    client.change(procedure, 2, 'all sound: volts', 'all sound: vollts');
    expect((await client.findings(procedure)).some(about('vollts'))).toBe(true);
    client.change(procedure, 3, 'vollts', 'volts');
    expect((await client.findings(procedure)).some(about('vollts'))).toBe(false);
    expect(
      client.published.filter(one => one.uri === procedure && one.version !== undefined).map(one => one.version),
    ).toEqual([1, 1, 2, 3]);
  });

  it('of the text come first in a file that is opened, and all are there when the circuit has been looked at', async () => {
    await started();
    client.open(procedure, lampProcedure);
    await client.rest();
    const codes = client.published
      .filter(one => one.uri === procedure && one.version === 1)
      .map(one => one.diagnostics.map(found => found.code));
    const [first, complete] = codes;
    expect(codes).toHaveLength(2);
    expect(complete!.length).toBeGreaterThan(first!.length);
    expect(complete).toEqual(expect.arrayContaining(first!));
  });

  it('are not published for a text that has changed meanwhile', async () => {
    await started();
    client.open(procedure, lampProcedure);
    await client.rest();
    for (let version = 2; version < 12; version++)
      client.change(
        procedure,
        version,
        version % 2 === 0 ? 'sound: volts' : 'sound: vollts',
        version % 2 === 0 ? 'sound: vollts' : 'sound: volts',
      );
    await client.rest();
    const versions = client.published
      .filter(one => one.uri === procedure && one.version !== undefined)
      .map(one => one.version);
    // What the text tells comes first where a file is opened, and all its findings after that.
    expect(versions).toEqual([1, 1, 11]);
  });

  it('follow a system file that is changed or deleted outside', async () => {
    const files = await started();
    client.open(procedure, lampProcedure);
    await client.rest();
    const change = (uri: string, type: 1 | 2 | 3) =>
      client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });
    files.set(system, lampSystem.replace('X1: { title', 'X9: { title'));
    void change(system, 2);
    expect((await client.findings(procedure)).some(about('called `X1`'))).toBe(true);
    files.set(system, lampSystem);
    void change(system, 2);
    expect((await client.findings(procedure)).some(about('called `X1`'))).toBe(false);
    files.delete(system);
    void change(system, 3);
    await client.rest();
    const range = { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } };
    const hints = { textDocument: { uri: procedure }, range };
    expect(await client.connection.sendRequest('textDocument/inlayHint', hints)).toEqual([]);
  });

  it('leave with a file that is deleted', async () => {
    const files = await started(new Map([[procedure, unknownTarget]]));
    expect(await client.findings(procedure)).not.toEqual([]);
    files.delete(procedure);
    void client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: procedure, type: 3 }],
    });
    expect(await client.findings(procedure)).toEqual([]);
  });

  it('are one message for a file that is too large to be read', async () => {
    const huge = 'file:///project/huge.system.yaml';
    await started(new Map<string, string | FileText>([...lampFiles(), [huge, { none: 'too large' }]]));
    const found = await client.findings(huge);
    expect(found.map(one => one.message)).toEqual([
      'File is larger than 10 MB and was not read\nhelp: split it into several files',
    ]);
  });

  it('come and go with a folder of the workspace', async () => {
    const other = 'file:///other/lamp-dark.procedure.yaml';
    const files = await started(new Map([...lampFiles(), [other, unknownTarget]]));
    await client.rest();
    expect(client.published.some(one => one.uri === other)).toBe(false);
    const folder = { uri: 'file:///other', name: 'other' };
    const change = (event: object) =>
      void client.connection.sendNotification('workspace/didChangeWorkspaceFolders', { event });
    change({ added: [folder], removed: [] });
    expect(await client.findings(other)).not.toEqual([]);
    // A disk of Node refuses what lies outside the folders; this one has to be told.
    files.set(other, { none: 'outside' });
    change({ added: [], removed: [folder] });
    expect(await client.findings(other)).toEqual([]);
  });

  it('follow the settings of rules', async () => {
    const files = new Map([...lampFiles(), [procedure, unknownTarget]]);
    await started(files);
    const [found] = (await client.findings(procedure)).filter(about('vollts'));
    await client.stop();
    await started(files, { settings: { rules: { [String(found.code)]: 'off' } } });
    expect((await client.findings(procedure)).some(about('vollts'))).toBe(false);
  });
});

describe('requests', () => {
  const at = (text: string, mark: string) => {
    const before = text.slice(0, text.indexOf(mark)).split('\n');
    return { line: before.length - 1, character: before.at(-1)!.length };
  };

  it('complete, document lazily, and hover', async () => {
    await started();
    client.open(procedure, lampProcedure);
    const position = at(lampProcedure, 'volts\n');
    const items = await client.connection.sendRequest<CompletionItem[]>('textDocument/completion', {
      textDocument: { uri: procedure },
      position,
    });
    expect(items.map(item => item.label)).toContain('mend-plug');
    const keys = await client.connection.sendRequest<CompletionItem[]>('textDocument/completion', {
      textDocument: { uri: procedure },
      position: at(lampProcedure, 'title: Voltage'),
    });
    const title = keys.find(item => item.label === 'title')!;
    expect(title.documentation).toBeUndefined();
    const resolved = await client.connection.sendRequest<CompletionItem>('completionItem/resolve', title);
    expect(resolved.documentation).toMatchObject({ kind: 'markdown' });
    const hover = await client.connection.sendRequest<Hover>('textDocument/hover', {
      textDocument: { uri: procedure },
      position,
    });
    expect(JSON.stringify(hover.contents)).toContain('volts');
  });

  it('rename across files that are not open', async () => {
    await started();
    client.open(procedure, lampProcedure);
    const edit = await client.connection.sendRequest<WorkspaceEdit>('textDocument/rename', {
      textDocument: { uri: procedure },
      position: at(lampProcedure, 'E1]'),
      newName: 'E77',
    });
    expect(Object.keys(edit.changes!).sort()).toEqual([procedure, system]);
    await expect(
      client.connection.sendRequest('textDocument/rename', {
        textDocument: { uri: procedure },
        position: at(lampProcedure, 'E1]'),
        newName: 'F1',
      }),
    ).rejects.toThrow('There is already a part `F1`');
  });

  it('give hints for the lines asked for, unless they are switched off', async () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } };
    await started();
    client.open(procedure, lampProcedure);
    const hints = await client.connection.sendRequest<InlayHint[]>('textDocument/inlayHint', {
      textDocument: { uri: procedure },
      range,
    });
    expect(hints).toHaveLength(3);
    await client.stop();
    await started(lampFiles(), { settings: { inlayHints: false } });
    client.open(procedure, lampProcedure);
    expect(
      await client.connection.sendRequest('textDocument/inlayHint', { textDocument: { uri: procedure }, range }),
    ).toEqual([]);
  });

  it('offer to rewrite limits, only where rewritings are asked for', async () => {
    await started();
    client.open(procedure, lampProcedure);
    const start = at(lampProcedure, 'limits: 11.5');
    const offered = async (only?: string[]) => {
      const params = {
        textDocument: { uri: procedure },
        range: { start, end: start },
        context: { diagnostics: [], only },
      };
      const actions = await client.connection.sendRequest<CodeAction[]>('textDocument/codeAction', params);
      return actions.map(({ title, kind }) => `${kind}: ${title}`);
    };
    const derive = 'refactor.rewrite: Derive the limits from the circuit';
    expect(await offered()).toEqual([derive]);
    expect(await offered(['refactor'])).toEqual([derive]);
    expect(await offered(['quickfix'])).toEqual([]);
  });

  it('answer about every file with every request, the unknown one too', async () => {
    await started();
    const position = { line: 3, character: 4 };
    for (const uri of [system, procedure, samples, 'file:///project/none.system.yaml', 'untitled:Untitled-1']) {
      const range = { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } };
      const params = {
        textDocument: { uri },
        position,
        range,
        context: { diagnostics: [], includeDeclaration: true },
        positions: [position],
        options: { tabSize: 2, insertSpaces: true },
      };
      for (const method of [
        'definition',
        'references',
        'documentHighlight',
        'documentSymbol',
        'foldingRange',
        'selectionRange',
        'documentLink',
        'codeLens',
        'codeAction',
        'formatting',
        'rangeFormatting',
        'semanticTokens/full',
        'semanticTokens/range',
        'inlayHint',
        'hover',
        'completion',
      ])
        await expect(client.connection.sendRequest(`textDocument/${method}`, params)).resolves.not.toBeUndefined();
    }
    expect(client.log).toEqual([]);
  });

  it('stays up when a feature fails, and says in the log which', async () => {
    await started();
    const broken = { textDocument: { uri: procedure }, position: null };
    expect(await client.connection.sendRequest('textDocument/hover', broken)).toBeNull();
    expect(client.log.join()).toMatch(/^hover: /);
    expect(
      await client.connection.sendRequest('textDocument/documentSymbol', { textDocument: { uri: procedure } }),
    ).not.toEqual([]);
  });
});
