import * as vscode from 'vscode';
import type { Place } from '../../server/src/protocol/messages.ts';
import {
  type PreviewParams,
  type PreviewState,
  type PreviewWalk,
  previewRequest,
  standingAtRequest,
  standingPlaceRequest,
} from '../../server/src/protocol/preview.ts';
import { askAbout } from '../panel/ask.ts';
import { rangeOf } from '../panel/show-place.ts';
import type { Checker } from '../src/language-client.ts';
import type { ToHost, ToView } from './messages.ts';
import { changed } from './walk.ts';

/** What a panel needs of the extension around it. */
export interface Around {
  readonly checker: Checker;
  /** Opens the preview of another procedure. */
  goOn(procedure: vscode.Uri): void;
}

/** One panel and the walk in it: asks the server what is to be drawn, and keeps text and panel at the same step. */
export class Preview {
  state: PreviewState | undefined;
  readonly #panel: vscode.WebviewPanel;
  readonly #uri: vscode.Uri;
  readonly #around: Around;
  #walk: PreviewWalk;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts questions, so that an answer that was overtaken is not drawn. */
  #asked = 0;
  /** The step that this panel has shown in the text; that the cursor is there now is no news. */
  #revealed: string | undefined;

  constructor(panel: vscode.WebviewPanel, uri: vscode.Uri, walk: PreviewWalk, around: Around) {
    this.#panel = panel;
    this.#uri = uri;
    this.#walk = walk;
    this.#around = around;
    panel.webview.onDidReceiveMessage((did: ToHost) => void this.receive(did));
    panel.onDidDispose(() => clearTimeout(this.#timer));
  }

  reveal(walk: PreviewWalk | undefined): void {
    this.#panel.reveal(undefined, true);
    if (walk === undefined) return;
    this.#walk = walk;
    void this.#refresh().then(() => this.#showInText(this.#standing));
  }

  async receive(did: ToHost): Promise<void> {
    const before = this.#standing;
    const other = this.state?.sheet.continuesIn;
    if (did.type === 'continue' && other !== undefined) this.#around.goOn(vscode.Uri.parse(other));
    this.#walk = changed(this.#walk, did);
    await this.#refresh(did.type === 'play to the end');
    if (did.type === 'ready') return;
    if (did.type === 'show' || this.#standing !== before) await this.#showInText(this.#standing);
  }

  showNothing(): void {
    this.#send({ type: 'say', text: 'There is no procedure to show. Once its file is there, it appears here.' });
  }

  /** After changes to the text, which come in bursts. */
  refreshSoon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#refresh(), refreshPauseMs);
  }

  /** The step in which the cursor stands is looked at. */
  async follow({ textEditor, selections }: vscode.TextEditorSelectionChangeEvent): Promise<void> {
    const [selection] = selections;
    if (!this.#panel.visible || !selection) return;
    const name = await this.#ask<string | null>(standingAtRequest, { position: selection.active });
    if (name === undefined || name === null || textEditor.selection.active.compareTo(selection.active) !== 0) return;
    if (name === this.#standing || name === this.#revealed) return;
    this.#revealed = undefined;
    this.#walk = changed(this.#walk, { type: 'show', name });
    await this.#refresh();
  }

  get #standing(): string | undefined {
    return this.state?.sheet.name;
  }

  async #refresh(playToEnd = false): Promise<void> {
    const question = ++this.#asked;
    const params: Omit<PreviewParams, 'textDocument'> = { walk: this.#walk, playToEnd };
    const state = await this.#ask<PreviewState | null>(previewRequest, params);
    // While the server is being started again, what was drawn stays; its findings then bring the next question.
    if (question !== this.#asked || state === undefined) return;
    if (state === null) {
      this.showNothing();
      return;
    }
    this.state = state;
    this.#walk = state.walk;
    this.#send({ type: 'draw', uri: this.#uri.toString(), state });
  }

  /** The text is scrolled where it is visible; the focus stays where it is. */
  async #showInText(name: string | undefined): Promise<void> {
    const editor = vscode.window.visibleTextEditors.find(one => one.document.uri.toString() === this.#uri.toString());
    if (!editor || name === undefined) return;
    const place = await this.#ask<Place | null>(standingPlaceRequest, { name });
    if (!place) return;
    const range = rangeOf(place);
    this.#revealed = name;
    editor.selection = new vscode.Selection(range.start, range.start);
    editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  }

  #ask<T>(method: string, params: object): Promise<T | undefined> {
    return askAbout<T>(this.#around.checker, this.#uri, method, params);
  }

  #send(message: ToView): void {
    void this.#panel.webview.postMessage(message);
  }
}

const refreshPauseMs = 150;
