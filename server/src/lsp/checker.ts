import type { Diagnostic } from 'vscode-languageserver';
import type { Status } from '../protocol/messages.ts';
import { turn } from './guard.ts';

/** What the checker needs of the server around it. */
export interface CheckerHost {
  /** Resolves when everything that the files name has been read. */
  settled(): Promise<void>;
  isOpen(uri: string): boolean;
  /** Changes with the text. */
  version(uri: string): number | undefined;
  /** The findings of one file as the editor wants them; undefined for a file that is not there. Never throws. */
  check(uri: string): Promise<Diagnostic[] | 'failed' | undefined>;
  /** Those of them that the file tells by itself; undefined where that is not worth while. Never throws. */
  checkAlone(uri: string): Promise<Diagnostic[] | undefined>;
  publish(uri: string, diagnostics: Diagnostic[]): void;
  status(status: Status): void;
  /** There is something to check. */
  busy(): void;
  /** Nothing is left to check. */
  idle(): void;
}

/** Edits that come in one go, as from a rename, are checked once. */
const shortestPauseMs = 5;
const longestPauseMs = 150;

/**
 * Checks files one after another, those that are open first, letting requests in between. Old findings stay in the editor
 * until there are new ones, and findings about a text that has changed meanwhile are thrown away.
 */
export class Checker {
  readonly host: CheckerHost;
  readonly #waiting = new Set<string>();
  readonly #published = new Map<string, number>();
  /** What was sent last about a file, with the version of its text. */
  readonly #shown = new Map<string, string>();
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** How long the last check of an open file took: what is checked at once is checked while it is typed. */
  #lastMs = 0;
  #running = false;
  #stopped = false;

  constructor(host: CheckerHost) {
    this.host = host;
  }

  /** These files, or what they depend on, have changed. */
  queue(uris: Iterable<string>): void {
    for (const uri of uris) this.#waiting.add(uri);
    clearTimeout(this.#timer);
    if (this.#running || this.#stopped) return;
    this.host.busy();
    // Somebody who has just opened a file is not typing.
    const isOpening = [...this.#waiting].some(uri => this.#isNew(uri));
    const pauseMs = isOpening ? 0 : Math.min(Math.max(this.#lastMs / 4, shortestPauseMs), longestPauseMs);
    this.#timer = setTimeout(() => void this.#run(), pauseMs);
  }

  /** The file is gone: its findings go at once. */
  drop(uri: string): void {
    this.#waiting.delete(uri);
    this.#shown.delete(uri);
    if (this.#published.delete(uri)) this.host.publish(uri, []);
  }

  /** A file is being checked, or waits for it. */
  get isBusy(): boolean {
    return this.#running || this.#waiting.size > 0 || this.#stopped;
  }

  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#timer);
    this.#waiting.clear();
  }

  async #run(): Promise<void> {
    this.#running = true;
    while (this.#waiting.size > 0) {
      this.host.status({ state: 'checking', text: `Checking ${count(this.#waiting.size, 'file')}` });
      for (const uri of [...this.#waiting]) if (this.#isNew(uri)) await this.#publishAlone(uri);
      await this.host.settled();
      await turn();
      const uri = this.#next();
      if (uri !== undefined) await this.#check(uri);
    }
    this.#running = false;
    if (this.#stopped) return;
    this.host.status({ state: 'idle', text: this.#summary() });
    this.host.idle();
  }

  #next(): string | undefined {
    const [first] = this.#waiting;
    const next = [...this.#waiting].find(uri => this.host.isOpen(uri)) ?? first;
    this.#waiting.delete(next);
    return next;
  }

  async #check(uri: string): Promise<void> {
    const version = this.host.version(uri);
    const began = performance.now();
    const found = await this.host.check(uri);
    if (this.host.isOpen(uri)) this.#lastMs = performance.now() - began;
    await turn();
    // A newer text has queued the file again.
    if (this.#stopped || version !== this.host.version(uri)) return;
    if (found === 'failed') return;
    if (found === undefined) return this.drop(uri);
    if (found.length === 0 && !this.#published.has(uri) && !this.host.isOpen(uri)) return;
    this.#published.set(uri, found.length);
    this.#publish(uri, version, found);
  }

  /** What the editor shows for this very text already is not sent again. */
  #publish(uri: string, version: number | undefined, found: Diagnostic[]): void {
    const shown = JSON.stringify([version, found]);
    if (this.#shown.get(uri) === shown) return;
    this.#shown.set(uri, shown);
    this.host.publish(uri, found);
  }

  /** Open, and nothing has been shown about it yet. */
  #isNew(uri: string): boolean {
    return this.host.isOpen(uri) && !this.#published.has(uri);
  }

  /** A file that shows nothing yet waits for no other file: what it tells by itself comes first, and be it nothing; the rest is added. */
  async #publishAlone(uri: string): Promise<void> {
    const version = this.host.version(uri);
    const found = await this.host.checkAlone(uri);
    if (!found || this.#stopped || version !== this.host.version(uri)) return;
    this.#published.set(uri, found.length);
    this.#publish(uri, version, found);
    await turn();
  }

  #summary(): string {
    const counts = [...this.#published.values()].filter(found => found > 0);
    const findings = counts.reduce((sum, found) => sum + found, 0);
    return findings === 0 ? 'No findings' : `${count(findings, 'finding')} in ${count(counts.length, 'file')}`;
  }
}

function count(many: number, noun: string): string {
  return `${many} ${noun}${many === 1 ? '' : 's'}`;
}
