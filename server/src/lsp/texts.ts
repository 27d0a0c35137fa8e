import { TextDocument } from 'vscode-languageserver-textdocument';
import { URI } from 'vscode-uri';
import type { Workspace } from '../analysis/workspace.ts';
import { type Files, type FileText, fileLimit } from '../disk/files.ts';

/** Writes to the log what went wrong where. */
export type Report = (where: string, error: unknown) => void;

/** One spelling for every file, whoever names it. */
export function normal(uri: string): string {
  return URI.parse(uri).toString();
}

/**
 * The text of every file the server knows, from the editor or from the disk, kept in step with the workspace.
 * What the editor holds open wins over the disk.
 */
export class Texts {
  readonly workspace: Workspace;
  readonly disk: Files;
  readonly #documents = new Map<string, TextDocument>();
  readonly #open = new Set<string>();
  readonly #tooLarge = new Set<string>();
  #loading: Promise<void> | undefined;
  readonly #report: Report;
  #loaded = 0;

  constructor(workspace: Workspace, disk: Files, report: Report) {
    this.workspace = workspace;
    this.disk = disk;
    this.#report = report;
  }

  /** The editor opened the file or changed it. */
  edited(document: TextDocument): void {
    const uri = normal(document.uri);
    this.#open.add(uri);
    this.#set(uri, document);
  }

  /** The editor let go of the file: from now on the disk tells what is in it. */
  async closed(given: string): Promise<void> {
    this.#open.delete(normal(given));
    await this.reread(given);
  }

  /** The file may have changed on the disk; a file that is gone is forgotten. */
  async reread(given: string): Promise<void> {
    const uri = normal(given);
    if (!this.#open.has(uri)) this.#take(uri, await this.disk.read(uri));
  }

  isOpen(uri: string): boolean {
    return this.#open.has(uri);
  }

  /** Text and lines of a file; undefined for one that was never read. */
  document(uri: string): TextDocument | undefined {
    return this.#documents.get(uri);
  }

  /** The file is there, but so large that it was not read. */
  isTooLarge(uri: string): boolean {
    return this.#tooLarge.has(uri);
  }

  /** Resolves when every file that another one names has been read or is known to be absent; never fails. */
  settled(): Promise<void> {
    this.#loading ??= this.#load()
      .catch(error => this.#report('reading', error))
      .finally(() => {
        this.#loading = undefined;
      });
    return this.#loading;
  }

  async #load(): Promise<void> {
    for (let missing = this.workspace.missing(); missing.length > 0; missing = this.workspace.missing()) {
      for (const uri of missing) {
        const found: FileText = this.#loaded++ < fileLimit ? await this.disk.read(uri) : { none: 'absent' };
        if (this.workspace.has(uri)) continue;
        this.#take(uri, found);
        if (found.text === undefined) this.workspace.absent(uri, found.none);
      }
    }
  }

  #take(uri: string, { text, none }: FileText): void {
    if (this.#open.has(uri)) return;
    this.#tooLarge.delete(uri);
    if (none === 'too large') this.#tooLarge.add(uri);
    if (text === undefined) {
      this.#documents.delete(uri);
      this.workspace.delete(uri);
    } else if (this.#documents.get(uri)?.getText() !== text) {
      this.#set(uri, TextDocument.create(uri, 'yaml', 0, text));
    }
  }

  #set(uri: string, document: TextDocument): void {
    this.#tooLarge.delete(uri);
    this.#documents.set(uri, document);
    this.workspace.set(uri, document.getText());
  }
}
