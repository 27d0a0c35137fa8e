import * as vscode from 'vscode';
import { languageOf, type Status } from '../../server/src/protocol/messages.ts';

/** The item beside the language in the status bar that says what the checker is doing. */
export interface StatusItem extends vscode.Disposable {
  show(status: Status): void;
  readonly current: Status;
}

export function createStatus(): StatusItem {
  const selector = Object.values(languageOf).map(language => ({ language }));
  const item = vscode.languages.createLanguageStatusItem('faultwalk.status', selector);
  let current: Status = { state: 'starting', text: 'Starting' };
  item.name = 'Faultwalk';
  item.command = { title: 'Restart', command: 'faultwalk.restart', tooltip: 'Restart the checker' };

  function show(status: Status): void {
    current = status;
    item.text = status.text;
    item.detail = status.detail;
    item.busy = status.state === 'starting' || status.state === 'checking';
    item.severity =
      status.state === 'problem' ? vscode.LanguageStatusSeverity.Error : vscode.LanguageStatusSeverity.Information;
  }

  show(current);
  return {
    show,
    dispose: () => item.dispose(),
    get current() {
      return current;
    },
  };
}
