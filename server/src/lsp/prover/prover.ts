import type { Levels } from '../../rules/run.ts';
import type { Bench } from './bench.ts';
import { carried } from './carried.ts';
import type { Proved, ProvedDiagnostic } from './work.ts';

/** What the prover needs of the server around it. */
export interface ProverHost {
  /** The procedure and every file that it is about, with their texts; null for one that is not there. */
  files(uri: string): readonly (readonly [uri: string, text: string | null])[];
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

/** Proves procedures one after another in the background, the one that was asked for last first. */
export class Prover {
  readonly #host: ProverHost;
  readonly #bench: Bench;
  readonly #known = new Map<string, Known>();
  readonly #wanted: string[] = [];
  /** The texts that the bench has. */
  readonly #sent = new Map<string, string | null>();
  #doing: { readonly uri: string; readonly key: string } | undefined;
  #jobs = 0;

  constructor(host: ProverHost, bench: Bench) {
    this.#host = host;
    this.#bench = bench;
  }

  /** This procedure is looked at, and may have changed. */
  want(uri: string): void {
    const key = this.#keyOf(uri);
    if (this.#known.get(uri)?.key === key || (this.#doing?.uri === uri && this.#doing.key === key)) return;
    if (this.#doing?.uri === uri) this.#bench.cancel();
    const at = this.#wanted.indexOf(uri);
    if (at >= 0) this.#wanted.splice(at, 1);
    this.#wanted.push(uri);
    void this.#run();
  }

  forget(uri: string): void {
    this.#known.delete(uri);
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

  get isBusy(): boolean {
    return this.#doing !== undefined;
  }

  dispose(): void {
    this.#wanted.length = 0;
    this.#bench.cancel();
    this.#bench.dispose();
  }

  async #run(): Promise<void> {
    if (this.#doing) return;
    for (let uri = this.#wanted.pop(); uri !== undefined; uri = this.#wanted.pop()) {
      await this.#prove(uri);
    }
  }

  async #prove(uri: string): Promise<void> {
    const files = this.#host.files(uri);
    const text = files.find(([file]) => file === uri)?.[1];
    if (typeof text !== 'string') return;
    const key = keyOf(files);
    this.#doing = { uri, key };
    this.#host.begun(uri);
    try {
      const changes = files.filter(([file, now]) => this.#sent.get(file) !== now);
      for (const [file, now] of changes) this.#sent.set(file, now);
      const levels = await this.#host.levels(uri);
      const proved = await this.#bench.do({ id: ++this.#jobs, uri, changes, levels });
      if (proved) this.#known.set(uri, { key, text, proved });
    } catch (error) {
      this.#sent.clear();
      this.#host.report(`proving ${uri}`, error);
    } finally {
      this.#doing = undefined;
    }
    this.#host.ended(uri);
  }

  #keyOf(uri: string): string {
    return keyOf(this.#host.files(uri));
  }
}

/** Texts are told apart by their length and a sum over all characters: enough to know that one has changed. */
function keyOf(files: readonly (readonly [string, string | null])[]): string {
  return files.map(([uri, text]) => `${uri} ${text === null ? '-' : `${text.length}:${sum(text)}`}`).join('\n');
}

function sum(text: string): number {
  let hash = 2166136261;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
  return hash >>> 0;
}
