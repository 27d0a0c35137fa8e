import { URI, Utils } from 'vscode-uri';
import { normal } from './texts.ts';

/**
 * The folders that files may be read from: those of the workspace and, for a file that is opened by itself, its own.
 */
export class Roots {
  #folders: readonly string[] = [];
  readonly #alone = new Map<string, string>();

  change(added: readonly string[], removed: readonly string[] = []): void {
    const gone = new Set(removed.map(normal));
    this.#folders = [...new Set([...this.#folders, ...added.map(normal)])].filter(folder => !gone.has(folder));
  }

  opened(uri: string): void {
    if (isFile(uri)) this.#alone.set(uri, Utils.dirname(URI.parse(uri)).toString());
  }

  closed(uri: string): void {
    this.#alone.delete(uri);
  }

  /** The folders of the workspace. */
  get folders(): readonly string[] {
    return this.#folders;
  }

  /** Every folder that may be read from. */
  get readable(): readonly string[] {
    const alone = [...this.#alone].filter(([uri]) => this.of(uri) === undefined).map(([, folder]) => folder);
    return [...this.#folders, ...new Set(alone)];
  }

  /** The innermost folder of the workspace that a file lies in. */
  of(uri: string): string | undefined {
    return this.#folders.filter(folder => isBelow(uri, folder)).sort((a, b) => b.length - a.length)[0];
  }
}

export function isBelow(uri: string, folder: string): boolean {
  return uri.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
}

function isFile(uri: string): boolean {
  return URI.parse(uri).scheme === 'file';
}
