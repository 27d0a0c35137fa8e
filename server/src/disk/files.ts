import { LARGEST_TEXT } from '../syntax/unreadable.ts';

/** Files beyond the editor's own, as the server may see them; the only way to a disk. */
export interface Files {
  read(uri: string): Promise<FileText>;
  /** Files of ours below a root, never more than `limit`. Folders that are links are not entered. */
  list(root: string, limit: number): Promise<string[]>;
}

export type FileText =
  | { readonly text: string; readonly none?: undefined }
  /** Why there is no text: it is not there, lies outside the roots, or is beyond the size limit. */
  | { readonly text?: undefined; readonly none: 'absent' | 'outside' | 'too large' };

/** A file beyond this is not read from the disk; a text of that many characters is not parsed, either. */
export const sizeLimitBytes = LARGEST_TEXT;

/** So many files of a workspace are checked without being open. */
export const fileLimit = 1000;

export const ourFile = /\.(system|procedure|samples)\.ya?ml$/;
