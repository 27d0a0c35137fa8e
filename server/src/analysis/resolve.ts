import { URI, Utils } from 'vscode-uri';

/** The file that `name` means beside `uri`; undefined for what is no file of this workspace's kind (`https:` and the like). */
export function resolveFile(uri: string, name: string): string | undefined {
  if (name.trim() === '' || /^[a-z][a-z0-9+.-]+:/i.test(name)) return undefined;
  const beside = saved(URI.parse(uri));
  const path = name.replaceAll('\\', '/');
  return Utils.resolvePath(Utils.dirname(beside), path).toString();
}

/** A text that is not saved yet has its place on the disk already, and names the files that are there. */
function saved(uri: URI): URI {
  return uri.scheme === 'untitled' ? uri.with({ scheme: 'file' }) : uri;
}
