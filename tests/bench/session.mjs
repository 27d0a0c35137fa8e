import { spawn, spawnSync } from 'node:child_process';
import { setTimeout as wait } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';

/** A language server as a process of its own, spoken to over its standard streams as an editor does. */
export async function startSession({ program, folder, settings = {}, idle }) {
  const began = performance.now();
  const child = spawn(process.execPath, [program, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  const connection = createProtocolConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const texts = new Map();
  const listeners = new Set();
  const tell = event => {
    for (const listener of [...listeners]) listener(event);
  };
  connection.onNotification('textDocument/publishDiagnostics', message => tell({ published: message }));
  if (idle) connection.onNotification(idle, ({ state }) => tell({ state }));
  connection.onRequest('workspace/configuration', ({ items }) => items.map(({ section }) => settings[section] ?? {}));
  for (const request of ['client/registerCapability', 'client/unregisterCapability'])
    connection.onRequest(request, () => null);
  connection.listen();

  const uri = folder && pathToFileURL(folder).href;
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: uri ?? null,
    workspaceFolders: uri ? [{ uri, name: 'bench' }] : null,
    capabilities: { workspace: { configuration: true, workspaceFolders: true } },
    initializationOptions: {},
  });
  const startedMs = performance.now() - began;
  await connection.sendNotification('initialized', {});

  const until = matches =>
    new Promise(resolve => {
      const listener = event => {
        if (!matches(event)) return;
        listeners.delete(listener);
        resolve(event);
      };
      listeners.add(listener);
    });
  const rest = () => (idle ? until(({ state }) => state === 'idle') : wait(50));
  const findings = (file, version) =>
    until(({ published }) => published?.uri === file && (published.version ?? version) === version);

  return {
    startedMs,
    rest,
    /** Milliseconds from opening the file to the first message that has a finding, if any has, and until all is checked; and how many findings there are. */
    async open(file, text) {
      texts.set(file, { text, version: 1 });
      let count;
      let firstMs;
      const listener = ({ published }) => {
        if (published?.uri !== file) return;
        count = published.diagnostics.length;
        if (count > 0) firstMs ??= performance.now() - began;
      };
      listeners.add(listener);
      const [came, resting] = [findings(file, 1), rest()];
      const textDocument = { uri: file, languageId: 'yaml', version: 1, text };
      const began = performance.now();
      void connection.sendNotification('textDocument/didOpen', { textDocument });
      await came;
      const cameMs = performance.now() - began;
      await resting;
      listeners.delete(listener);
      return { firstMs, allMs: idle ? performance.now() - began : cameMs, count };
    },
    /** Milliseconds from an edit to the findings of the text that it makes; then everything comes to rest. */
    async edit(file, { start, end, text: inserted }) {
      const { text, version } = texts.get(file);
      const now = { text: text.slice(0, start) + inserted + text.slice(end), version: version + 1 };
      texts.set(file, now);
      const change = { range: { start: positionAt(text, start), end: positionAt(text, end) }, text: inserted };
      const [came, resting] = [findings(file, now.version), rest()];
      const result = await timed(came, () =>
        connection.sendNotification('textDocument/didChange', {
          textDocument: { uri: file, version: now.version },
          contentChanges: [change],
        }),
      );
      await resting;
      return result;
    },
    textOf: file => texts.get(file).text,
    residentMB: () => Number(spawnSync('ps', ['-o', 'rss=', '-p', child.pid]).stdout) / 1000,
    async stop() {
      await Promise.race([connection.sendRequest('shutdown'), wait(2000)]);
      connection.dispose();
      child.kill();
    },
  };
}

async function timed(came, send) {
  const began = performance.now();
  void send();
  const { published } = await came;
  return { ms: performance.now() - began, count: published.diagnostics.length };
}

function positionAt(text, offset) {
  const lines = text.slice(0, offset).split('\n');
  return { line: lines.length - 1, character: lines.at(-1).length };
}
