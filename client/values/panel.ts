import * as vscode from 'vscode';
import type { Place } from '../../server/src/protocol/messages.ts';
import {
  type ValuesCopyParams,
  type ValuesState,
  valuesCopyRequest,
  valuesPlaceRequest,
  valuesRequest,
} from '../../server/src/protocol/values.ts';
import { askAbout } from '../panel/ask.ts';
import { showPlace } from '../panel/show-place.ts';
import type { Checker } from '../src/language-client.ts';
import type { ToHost, ToView } from './messages.ts';

/** One panel: asks the server for the table of the chosen variant, and gives it away as text. */
export class ValuesPanel {
  state: ValuesState | undefined;
  readonly #panel: vscode.WebviewPanel;
  readonly #uri: vscode.Uri;
  readonly #checker: Checker;
  #variant: string | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Takes back the question that is being worked on. */
  #asked = new vscode.CancellationTokenSource();

  constructor(panel: vscode.WebviewPanel, uri: vscode.Uri, variant: string | undefined, checker: Checker) {
    this.#panel = panel;
    this.#uri = uri;
    this.#variant = variant;
    this.#checker = checker;
    panel.webview.onDidReceiveMessage((did: ToHost) => void this.receive(did));
    panel.onDidDispose(() => {
      clearTimeout(this.#timer);
      this.#asked.cancel();
    });
  }

  reveal(): void {
    this.#panel.reveal(undefined, true);
  }

  async receive(did: ToHost): Promise<void> {
    switch (did.type) {
      case 'choose variant':
        this.#variant = did.id;
        return this.#refresh();
      case 'ready':
        return this.#refresh();
      case 'copy':
        return this.#copy(did.form);
      case 'show':
        return this.#showInText(did.point);
    }
  }

  showNothing(): void {
    this.#send({ type: 'say', text: 'There is no system to measure. Once its file is there, its table appears here.' });
  }

  refreshSoon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#refresh(), refreshPauseMs);
  }

  async #refresh(): Promise<void> {
    this.#asked.cancel();
    const asked = new vscode.CancellationTokenSource();
    this.#asked = asked;
    this.#send({ type: 'working' });
    const state = await this.#ask<ValuesState | null>(valuesRequest, { variant: this.#variant }, asked.token);
    // While the server is being started again, what was drawn stays; its findings then bring the next question.
    if (asked.token.isCancellationRequested || state === undefined) return;
    if (state === null) {
      this.showNothing();
      return;
    }
    this.state = state;
    this.#variant = state.variants.find(({ chosen }) => chosen)?.id;
    this.#send({ type: 'draw', uri: this.#uri.toString(), state });
  }

  async #copy(form: ValuesCopyParams['form']): Promise<void> {
    const text = await this.#ask<string | null>(valuesCopyRequest, { variant: this.#variant, form });
    if (!text) return;
    await vscode.env.clipboard.writeText(text);
    this.#send({ type: 'done', text: 'The table is on the clipboard.' });
  }

  async #showInText(point: string): Promise<void> {
    const place = await this.#ask<Place | null>(valuesPlaceRequest, { point });
    if (place) await showPlace(vscode.Uri.parse(place.uri), place);
  }

  #ask<T>(method: string, params: object, token?: vscode.CancellationToken): Promise<T | undefined> {
    return askAbout<T>(this.#checker, this.#uri, method, params, token);
  }

  #send(message: ToView): void {
    void this.#panel.webview.postMessage(message);
  }
}

const refreshPauseMs = 300;
