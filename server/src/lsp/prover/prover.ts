import type { CancellationToken } from 'vscode-languageserver';
import type { CoverageFailure } from '../../protocol/coverage.ts';
import type { Levels } from '../../rules/run.ts';
import type { Bench } from './bench.ts';
import { carried } from './carried.ts';
import type { Job, Kind, Proved, ProvedDiagnostic, Results, Tasks } from './work.ts';

/** Texts by uri; null for a file that is not there. */
type Files = readonly (readonly [uri: string, text: string | null])[];

/** What the prover needs of the server around it. */
export interface ProverHost {
  /** A procedure or a system, and every file that it is about. */
  files(uri: string): Files;
  levels(uri: string): Promise<Levels>;
  begun(uri: string): void;
  /** There is a new proof, or none will come. */
  ended(uri: string): void;
  report(where: string, error: unknown): void;
}

interface Known {
  /** All texts that it was made from. */
  readonly key: string;
  readonly text: string;
  readonly proved: Proved;
}

/** Proves procedures one after another in the background, the one that was asked for last first; what somebody waits for goes before all of them. */
export class Prover {
  readonly #host: ProverHost;
  readonly #bench: Bench;
  readonly #known = new Map<string, Known>();
  readonly #wanted: string[] = [];
  readonly #asked: (() => Promise<void>)[] = [];
  /** The texts that the bench has. */
  readonly #sent = new Map<string, string | null>();
  /** All texts with which a proof failed, and why: it would fail with them again. */
  readonly #failed = new Map<string, { readonly key: string; readonly why: CoverageFailure }>();
  #doing: { readonly uri: string; readonly key: string } | undefined;
  #isRunning = false;
  #jobs = 0;

  constructor(host: ProverHost, bench: Bench) {
    this.#host = host;
    this.#bench = bench;
  }

  /** This procedure is looked at, and may have changed. */
  want(uri: string): void {
    const key = this.#keyOf(uri);
    if (this.#known.get(uri)?.key === key || this.#failed.get(uri)?.key === key) return;
    if (this.#doing?.uri === uri && this.#doing.key === key) return;
    if (this.#doing?.uri === uri) this.#bench.cancel();
    const at = this.#wanted.indexOf(uri);
    if (at >= 0) this.#wanted.splice(at, 1);
    this.#wanted.push(uri);
    void this.#run();
  }

  /** Does a task that somebody waits for. Undefined where it was taken back or the file is not there; rejects where it failed. */
  ask<K extends Exclude<Kind, 'proof'>>(
    kind: K,
    uri: string,
    task: Tasks[K],
    token: CancellationToken,
  ): Promise<Results[K] | undefined> {
    return new Promise((resolve, reject) => {
      this.#asked.push(async () => {
        if (token.isCancellationRequested) return resolve(undefined);
        const cancelling = token.onCancellationRequested(() => this.#bench.cancel());
        await this.#do(kind, uri, this.#host.files(uri), task).then(resolve, reject);
        cancelling.dispose();
      });
      void this.#run();
    });
  }

  /** The server itself has work, or has none any more. */
  hold(isHeld: boolean): void {
    this.#bench.hold(isHeld);
  }

  /** The settings have changed: what is known stays until it is proved anew. */
  age(): void {
    for (const [uri, known] of this.#known) this.#known.set(uri, { ...known, key: '' });
    this.#failed.clear();
    if (this.#doing) this.#doing = { ...this.#doing, key: '' };
  }

  /** What walking every fault has found: for this very text, or for an earlier one and moved along with the text. */
  found(uri: string, text: string): readonly ProvedDiagnostic[] {
    const known = this.#known.get(uri);
    if (!known) return [];
    return known.text === text ? known.proved.diagnostics : carried(known.proved.diagnostics, known.text, text, uri);
  }

  /** The last proof, and whether it is of the texts as they are now. */
  proofOf(uri: string): { readonly proved: Proved; readonly isFresh: boolean } | undefined {
    const known = this.#known.get(uri);
    return known && { proved: known.proved, isFresh: known.key === this.#keyOf(uri) };
  }

  /** Why there is no proof of the texts as they are now, where none will come. */
  failureOf(uri: string): CoverageFailure | undefined {
    const failed = this.#failed.get(uri);
    return failed?.key === this.#keyOf(uri) ? failed.why : undefined;
  }

  dispose(): void {
    this.#wanted.length = 0;
    this.#asked.length = 0;
    this.#bench.cancel();
    this.#bench.dispose();
  }

  async #run(): Promise<void> {
    if (this.#isRunning) return;
    this.#isRunning = true;
    while (this.#asked.length + this.#wanted.length > 0) {
      const asked = this.#asked.shift();
      if (asked) await asked();
      else await this.#prove(this.#wanted.pop()!);
    }
    this.#isRunning = false;
  }

  async #prove(uri: string): Promise<void> {
    const files = this.#host.files(uri);
    const text = files.find(([file]) => file === uri)?.[1];
    if (typeof text !== 'string') return;
    const key = keyOf(files);
    this.#doing = { uri, key };
    this.#host.begun(uri);
    try {
      const proved = await this.#do('proof', uri, files, { levels: await this.#host.levels(uri) });
      if (proved) this.#known.set(uri, { key: this.#doing.key, text, proved });
    } catch (error) {
      this.#failed.set(uri, { key, why: isOutOfMemory(error) ? 'memory' : 'mistake' });
      this.#host.report(`proving ${uri}`, error);
    } finally {
      this.#doing = undefined;
    }
    this.#host.ended(uri);
  }

  async #do<K extends Kind>(kind: K, uri: string, files: Files, task: Tasks[K]): Promise<Results[K] | undefined> {
    const changes = files.filter(([file, now]) => this.#sent.get(file) !== now);
    for (const [file, now] of changes) this.#sent.set(file, now);
    try {
      return await this.#bench.do<K>({ kind, id: ++this.#jobs, uri, changes, task } as Job<K>);
    } catch (error) {
      // A bench that failed may be a new one with the next job.
      this.#sent.clear();
      throw error;
    }
  }

  #keyOf(uri: string): string {
    return keyOf(this.#host.files(uri));
  }
}

function isOutOfMemory(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';
}

/** Texts are told apart by their length and a sum over all characters: enough to know that one has changed. */
function keyOf(files: Files): string {
  return files.map(([uri, text]) => `${uri} ${text === null ? '-' : `${text.length}:${sum(text)}`}`).join('\n');
}

function sum(text: string): number {
  let hash = 2166136261;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
  return hash >>> 0;
}
