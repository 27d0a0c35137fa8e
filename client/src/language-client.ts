import * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions, State, TransportKind } from 'vscode-languageclient/node';
import { type Proved, provedNotification } from '../../server/src/protocol/coverage.ts';
import {
  type InitializationOptions,
  languageOf,
  type Status,
  settingsSection,
  statusNotification,
  watchedFiles,
} from '../../server/src/protocol/messages.ts';
import type { StatusItem } from './status.ts';

/** The language server as the extension sees it: started once a file of ours is open, and not before. */
export interface Checker extends vscode.Disposable {
  /** Starts at once when a file of ours is open, else as soon as one is opened. */
  startWhenNeeded(): void;
  restart(): Promise<void>;
  /** Resolves with the running client once it has been started; other rooms of the extension send their requests through it. */
  readonly running: Promise<LanguageClient>;
  /** Every fault has been walked anew through a procedure. */
  readonly onProved: vscode.Event<vscode.Uri>;
}

export function createChecker(extensionUri: vscode.Uri, status: StatusItem): Checker {
  const proved = new vscode.EventEmitter<vscode.Uri>();
  const subscriptions: vscode.Disposable[] = [proved];
  let client: LanguageClient | undefined;
  let tellRunning: (client: LanguageClient) => void;
  const running = new Promise<LanguageClient>(resolve => {
    tellRunning = resolve;
  });

  async function start(): Promise<void> {
    if (client !== undefined) return;
    const starting = createClient(extensionUri);
    client = starting;
    subscriptions.push(
      starting.onNotification(statusNotification, (message: Status) => status.show(message)),
      starting.onNotification(provedNotification, ({ uri }: Proved) =>
        proved.fire(starting.protocol2CodeConverter.asUri(uri)),
      ),
      starting.onDidChangeState(({ newState }) => {
        if (newState === State.Starting) status.show({ state: 'starting', text: 'Starting' });
        if (newState === State.Stopped)
          status.show({ state: 'problem', text: 'Stopped', detail: 'Nothing is checked' });
      }),
    );
    await starting.start();
    tellRunning(starting);
  }

  function report(error: unknown): void {
    const detail = error instanceof Error ? error.message : String(error);
    status.show({ state: 'problem', text: 'The checker could not be started', detail });
  }

  return {
    running,
    onProved: proved.event,
    startWhenNeeded() {
      if (vscode.workspace.textDocuments.some(isOurs)) {
        start().catch(report);
        return;
      }
      const waiting = vscode.workspace.onDidOpenTextDocument(document => {
        if (!isOurs(document)) return;
        waiting.dispose();
        start().catch(report);
      });
      subscriptions.push(waiting);
    },
    async restart() {
      try {
        if (client === undefined) await start();
        else await client.restart();
      } catch (error) {
        report(error);
      }
    },
    dispose() {
      for (const subscription of subscriptions) subscription.dispose();
      // The editor does not wait for this; the server also ends by itself when its pipe closes.
      client?.dispose().catch(() => undefined);
    },
  };
}

const languages = Object.values(languageOf);

function isOurs(document: vscode.TextDocument): boolean {
  return (languages as string[]).includes(document.languageId);
}

/** Files of the disk and of the folders at hand. What only shows another version of a file, as beside a change, is not checked. */
function checkedSchemes(): string[] {
  const ofFolders = (vscode.workspace.workspaceFolders ?? []).map(({ uri }) => uri.scheme);
  return [...new Set(['file', 'untitled', ...ofFolders])];
}

function createClient(extensionUri: vscode.Uri): LanguageClient {
  const module = vscode.Uri.joinPath(extensionUri, 'dist', 'server.cjs').fsPath;
  const initializationOptions: InitializationOptions = {
    rulePage: 'command:faultwalk.showRulePage?%5B%22{rule}%22%5D',
  };
  const options: LanguageClientOptions = {
    documentSelector: languages.flatMap(language => checkedSchemes().map(scheme => ({ language, scheme }))),
    initializationOptions,
    synchronize: {
      configurationSection: settingsSection,
      fileEvents: vscode.workspace.createFileSystemWatcher(watchedFiles),
    },
    markdown: { isTrusted: { enabledCommands: ['faultwalk.showRulePage'] } },
  };
  return new LanguageClient(
    'faultwalk',
    'Faultwalk',
    {
      run: { module, transport: TransportKind.ipc },
      debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6009'] } },
    },
    options,
  );
}
