import type * as vscode from 'vscode';
import {
  type CoverageAnswer,
  type CoverageFailure,
  type CoverageLook,
  type CoverageState,
  coverageRequest,
  coverageWalkRequest,
} from '../../server/src/protocol/coverage.ts';
import type { Place } from '../../server/src/protocol/messages.ts';
import { type PreviewWalk, standingPlaceRequest } from '../../server/src/protocol/preview.ts';
import { askAbout } from '../panel/ask.ts';
import { showPlace } from '../panel/show-place.ts';
import type { Checker } from '../src/language-client.ts';
import { changed } from './look.ts';
import type { ToHost, ToView } from './messages.ts';

/** What a panel needs of the extension around it. */
export interface Around {
  readonly checker: Checker;
  /** Opens the preview on a walk, in this column. */
  step(procedure: vscode.Uri, walk: PreviewWalk, column: vscode.ViewColumn | undefined): void;
}

/** One panel and how it is looked at: asks the server what is to be drawn, and opens walks in the preview. */
export class CoveragePanel {
  state: CoverageState | undefined;
  readonly #panel: vscode.WebviewPanel;
  readonly #uri: vscode.Uri;
  readonly #around: Around;
  #look: CoverageLook;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts questions, so that an answer that was overtaken is not drawn. */
  #asked = 0;

  constructor(panel: vscode.WebviewPanel, uri: vscode.Uri, look: CoverageLook, around: Around) {
    this.#panel = panel;
    this.#uri = uri;
    this.#look = look;
    this.#around = around;
    panel.webview.onDidReceiveMessage((did: ToHost) => void this.receive(did));
    panel.onDidDispose(() => clearTimeout(this.#timer));
  }

  reveal(): void {
    this.#panel.reveal(undefined, true);
  }

  async receive(did: ToHost): Promise<void> {
    switch (did.type) {
      case 'walk':
        return this.#step(did.walk, did.end);
      case 'show':
        return this.#showInText(did.at);
      default:
        this.#look = changed(this.#look, did);
        return this.#refresh();
    }
  }

  showNothing(): void {
    this.#send({
      type: 'say',
      text: 'There is no procedure to walk faults through. Once its file is there, its faults appear here.',
    });
  }

  refreshSoon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#refresh(), refreshPauseMs);
  }

  async #refresh(): Promise<void> {
    const question = ++this.#asked;
    const answer = await this.#ask<CoverageAnswer | null>(coverageRequest, { look: this.#look });
    // While the server is being started again, what was drawn stays; its findings then bring the next question.
    if (question !== this.#asked || answer === undefined) return;
    if (answer === null) this.showNothing();
    else if (answer.failed !== undefined) this.#send({ type: 'say', text: failures[answer.failed] });
    else if (answer.state) this.#show(answer.state);
    // A text that is half typed may have no variants; what was drawn stays until there is something else to draw.
    else if (this.state) this.#show({ ...this.state, isEarlier: true });
    else this.#send({ type: 'say', text: 'Every fault is being walked through the procedure…' });
  }

  #show(state: CoverageState): void {
    this.state = state;
    this.#look = state.look;
    this.#send({ type: 'draw', uri: this.#uri.toString(), state });
  }

  async #step(walk: number, end: number): Promise<void> {
    const found = await this.#ask<PreviewWalk | null>(coverageWalkRequest, { variant: this.#look.variant, walk, end });
    if (found) this.#around.step(this.#uri, found, this.#panel.viewColumn);
  }

  async #showInText(name: string): Promise<void> {
    const place = await this.#ask<Place | null>(standingPlaceRequest, { name });
    if (place) await showPlace(this.#uri, place);
  }

  #ask<T>(method: string, params: object): Promise<T | undefined> {
    return askAbout<T>(this.#around.checker, this.#uri, method, params);
  }

  #send(message: ToView): void {
    void this.#panel.webview.postMessage(message);
  }
}

const failures: Record<CoverageFailure, string> = {
  memory:
    'There are more faults and steps here than can be walked in a gigabyte of memory. Name faults under "leaves out", let the procedure apply to fewer variants, or split it in two.',
  mistake:
    'The faults could not be walked. The reason stands in the output of Faultwalk; they are walked again after the next change.',
};

const refreshPauseMs = 150;
