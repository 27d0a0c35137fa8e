import { PassThrough } from 'node:stream';
import {
  createConnection,
  createProtocolConnection,
  type Diagnostic,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { type Files, type FileText, ourFile } from '../../server/src/disk/files.ts';
import { serve } from '../../server/src/lsp/serve.ts';
import { type Status, statusNotification } from '../../server/src/protocol/messages.ts';

/** An editor as the server sees it, in the same process. */
export interface Client {
  readonly connection: ProtocolConnection;
  /** Every message about the findings of a file, in the order in which they came. */
  readonly published: PublishDiagnosticsParams[];
  readonly statuses: Status[];
  readonly log: string[];
  open(uri: string, text: string): void;
  /** Replaces the first `from` by `to`, as an edit of that stretch alone. */
  change(uri: string, version: number, from: string, to: string): void;
  /** The findings of a file once the server has come to rest. */
  findings(uri: string): Promise<Diagnostic[]>;
  rest(): Promise<void>;
  stop(): Promise<void>;
}

export interface ClientOptions {
  readonly files: (roots: () => readonly string[]) => Files;
  readonly folders?: readonly string[];
  readonly settings?: unknown;
}

export async function start({ files, folders = ['file:///project'], settings = {} }: ClientOptions): Promise<Client> {
  const [up, down] = [new PassThrough(), new PassThrough()];
  const server = createConnection(new StreamMessageReader(up), new StreamMessageWriter(down));
  serve(server, files);
  const connection = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  const published: PublishDiagnosticsParams[] = [];
  const statuses: Status[] = [];
  const log: string[] = [];
  const texts = new Map<string, string>();
  let waiting: (() => void)[] = [];

  connection.onNotification('textDocument/publishDiagnostics', message => void published.push(message));
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => void log.push(message));
  connection.onNotification(statusNotification, (status: Status) => {
    statuses.push(status);
    const at = statuses.length;
    setTimeout(() => {
      if (status.state !== 'idle' || statuses.length > at) return;
      for (const go of waiting) go();
      waiting = [];
    }, quietMs);
  });
  connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) => items.map(() => settings));
  connection.onRequest('client/registerCapability', () => null);
  connection.listen();

  await connection.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    workspaceFolders: folders.map(uri => ({ uri, name: uri })),
    capabilities: { workspace: { configuration: true, workspaceFolders: true } },
    initializationOptions: { rulePage: 'command:page?{rule}' },
  });
  await connection.sendNotification('initialized', {});

  const rest = () => new Promise<void>(resolve => waiting.push(resolve));
  return {
    connection,
    published,
    statuses,
    log,
    rest,
    open(uri, text) {
      texts.set(uri, text);
      const textDocument = { uri, languageId: 'yaml', version: 1, text };
      void connection.sendNotification('textDocument/didOpen', { textDocument });
    },
    change(uri, version, from, to) {
      const text = texts.get(uri)!;
      const before = text.slice(0, text.indexOf(from)).split('\n');
      const start = { line: before.length - 1, character: before.at(-1)!.length };
      const range = { start, end: { line: start.line, character: start.character + from.length } };
      texts.set(
        uri,
        text.replace(from, () => to),
      );
      const contentChanges = [{ range, text: to }];
      void connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
    },
    async findings(uri) {
      await rest();
      return published.findLast(message => message.uri === uri)?.diagnostics ?? [];
    },
    async stop() {
      await connection.sendRequest('shutdown');
      connection.dispose();
      server.dispose();
    },
  };
}

/** A server that is idle this long is at rest: what it was told before it became idle may still be on its way. */
const quietMs = 40;

/** A disk in memory. */
export function memory(files: Map<string, string | FileText>): () => Files {
  return () => ({
    read: async uri => {
      const found = files.get(uri) ?? { none: 'absent' };
      return typeof found === 'string' ? { text: found } : found;
    },
    list: async (root, limit) =>
      [...files.keys()].filter(uri => uri.startsWith(root) && ourFile.test(uri)).slice(0, limit),
  });
}
