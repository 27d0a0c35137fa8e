/** The language server as a process of its own, fed what no editor should send: it stays up and goes on answering. */
import { type ChildProcess, spawn } from 'node:child_process';
import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { pathToFileURL } from 'node:url';
import * as esbuild from 'esbuild';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import {
  createProtocolConnection,
  type Diagnostic,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { type Status, statusNotification } from '../../server/src/protocol/messages.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const home = fs.mkdtempSync(path.join(os.tmpdir(), 'robust-'));
const folder = path.join(home, 'project');
const uriOf = (name: string) => pathToFileURL(path.join(folder, name)).href;
let child: ChildProcess;
let connection: ProtocolConnection;
/** What was told last of each file. */
const told = new Map<string, Diagnostic[]>();
let atRest: () => void = () => undefined;

beforeAll(async () => {
  fs.mkdirSync(folder);
  fs.writeFileSync(
    path.join(home, 'secret.system.yaml'),
    'format: 1\nsystem: secret\nparts:\n  HIDDEN: { kind: item }\n',
  );
  fs.writeFileSync(path.join(folder, 'huge.system.yaml'), `format: 1\n# ${'x'.repeat(50_000_000)}\n`);
  fs.writeFileSync(
    path.join(folder, 'binary.procedure.yaml'),
    Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * 37) % 256)),
  );
  fs.writeFileSync(path.join(folder, 'empty.procedure.yaml'), '');
  const program = path.join(home, 'server.cjs');
  await esbuild.build({
    entryPoints: ['server/src/lsp/server.ts'],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    mainFields: ['module', 'main'],
    logLevel: 'silent',
  });
  child = spawn(process.execPath, [program, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  connection = createProtocolConnection(new StreamMessageReader(child.stdout!), new StreamMessageWriter(child.stdin!));
  connection.onNotification('textDocument/publishDiagnostics', ({ uri, diagnostics }: PublishDiagnosticsParams) => {
    told.set(uri, diagnostics);
  });
  connection.onNotification(statusNotification, ({ state }: Status) => {
    if (state === 'idle') atRest();
  });
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    workspaceFolders: [{ uri: pathToFileURL(folder).href, name: 'project' }],
    capabilities: {},
  });
  await connection.sendNotification('initialized', {});
});

afterAll(async () => {
  await connection.sendRequest('shutdown');
  connection.dispose();
  child.kill();
  fs.rmSync(home, { recursive: true });
});

/** All findings of a text that is opened under a name; what the text tells by itself has come before. */
async function opened(name: string, text: string): Promise<string[]> {
  const uri = uriOf(name);
  const all = new Promise<Diagnostic[]>(resolve => {
    atRest = () => {
      const found = told.get(uri);
      if (found) resolve(found);
    };
  });
  const textDocument = { uri, languageId: 'yaml', version: 1, text };
  await connection.sendNotification('textDocument/didOpen', { textDocument });
  const found = await all;
  expect(child.exitCode).toBeNull();
  return found.map(({ code }) => String(code));
}

it('tells of a file of 50 MB that it was not read', async () => {
  const text = fs.readFileSync(path.join(folder, 'huge.system.yaml'), 'utf8');
  expect(await opened('huge.system.yaml', text)).toEqual(['file-too-large']);
});

it('tells of a binary file in one message', async () => {
  const text = fs.readFileSync(path.join(folder, 'binary.procedure.yaml'), 'latin1');
  expect(await opened('binary.procedure.yaml', text)).toHaveLength(1);
});

it('reads nothing outside its folders', async () => {
  const text =
    'format: 1\nprocedure: p\napplies to: { ../secret.system.yaml: all }\nsteps:\n  look: { inspect: [HIDDEN], then: look }\n';
  const found = await opened('outside.procedure.yaml', text);
  expect(found).toContain('outside-workspace');
  const definition = { textDocument: { uri: uriOf('outside.procedure.yaml') }, position: { line: 4, character: 22 } };
  expect((await connection.sendRequest<unknown[] | null>('textDocument/definition', definition)) ?? []).toEqual([]);
});

it.each([
  [
    'an unfinished merge',
    'format: 1\n<<<<<<< ours\nprocedure: a\n=======\nprocedure: b\n>>>>>>> theirs\n',
    'conflict-marker',
  ],
  ['brackets without end', `format: 1\nsteps: ${'['.repeat(100_000)}`, 'too-deep'],
  ['an alias to itself', 'format: 1\nprocedure: &a [*a]\n', 'cyclic-alias'],
])('tells of %s', async (what, text, rule) => {
  expect(await opened(`${what.replaceAll(' ', '-')}.procedure.yaml`, text)).toContain(rule);
});

it('answers whatever is asked about places and files that are not there', async () => {
  const requests = [
    'hover',
    'definition',
    'completion',
    'codeLens',
    'documentSymbol',
    'foldingRange',
    'inlayHint',
    'formatting',
  ];
  for (const uri of [uriOf('gone.procedure.yaml'), uriOf('empty.procedure.yaml'), 'untitled:x', 'not a uri', '']) {
    for (const request of requests) {
      const position = { line: 9_999_999, character: 9_999_999 };
      const params = {
        textDocument: { uri },
        position,
        range: { start: position, end: position },
        options: { tabSize: 2, insertSpaces: true },
      };
      await connection.sendRequest(`textDocument/${request}`, params);
    }
  }
});

it('takes edits that do not fit the text, and notices of files that are not there', async () => {
  const uri = uriOf('edited.procedure.yaml');
  await opened('edited.procedure.yaml', 'format: 1\n');
  const far = { line: 5000, character: 5000 };
  for (let version = 2; version < 30; version++) {
    const contentChanges = [
      { range: { start: { line: version % 3, character: 1 }, end: far }, text: '\u0000\uD800&a {{*a\n' },
    ];
    await connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
  }
  const changes = ['gone.system.yaml', '../../x.system.yaml', ''].flatMap(name =>
    [1, 2, 3].map(type => ({ uri: uriOf(name), type })),
  );
  await connection.sendNotification('workspace/didChangeWatchedFiles', { changes });
  await connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  await connection.sendNotification('workspace/didChangeConfiguration', {
    settings: { faultwalk: { rules: 7, inlayHints: [] } },
  });
});

it('still checks a file as if nothing had happened', async () => {
  const text = 'format: 1\nprocedure: p\nstart: look\nsteps:\n  look: { ask: Is it dark?, then: { yes: nowhere } }\n';
  expect(await opened('after-all.procedure.yaml', text)).toContain('unknown-name');
});
