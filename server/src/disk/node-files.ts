import * as fs from 'node:fs/promises';
import * as path from 'node:path';
import { URI } from 'vscode-uri';
import { type Files, type FileText, ourFile, sizeLimitBytes } from './files.ts';

/** The disk; where roots are given, what lies outside them is not read, also not through a link. */
export function nodeFiles(roots?: () => readonly string[]): Files {
  return { read: uri => read(uri, roots?.()), list };
}

async function read(uri: string, roots: readonly string[] | undefined): Promise<FileText> {
  const parsed = URI.parse(uri);
  if (parsed.scheme !== 'file') return { none: 'absent' };
  try {
    const real = await fs.realpath(parsed.fsPath);
    if (roots && !(await isBelowOneOf(real, roots))) return { none: 'outside' };
    const facts = await fs.stat(real);
    if (!facts.isFile()) return { none: 'absent' };
    if (facts.size > sizeLimitBytes) return { none: 'too large' };
    // What is no text is told by its characters, so that it is said in the file itself.
    return { text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(await fs.readFile(real)) };
  } catch {
    return { none: 'absent' };
  }
}

async function isBelowOneOf(file: string, roots: readonly string[]): Promise<boolean> {
  for (const root of roots) {
    const real = await fs.realpath(URI.parse(root).fsPath).catch(() => undefined);
    if (real !== undefined && isInside(real, file)) return true;
  }
  return false;
}

function isInside(folder: string, file: string): boolean {
  const way = path.relative(folder, file);
  return way !== '' && !way.startsWith('..') && !path.isAbsolute(way);
}

async function list(root: string, limit: number): Promise<string[]> {
  const found: string[] = [];
  const waiting = [URI.parse(root).fsPath];
  while (waiting.length > 0 && found.length < limit) {
    const folder = waiting.shift()!;
    const entries = await fs.readdir(folder, { withFileTypes: true }).catch(() => []);
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const full = path.join(folder, entry.name);
      if (entry.isDirectory() && !isPassedOver(entry.name)) waiting.push(full);
      else if (entry.isFile() && ourFile.test(entry.name) && found.length < limit)
        found.push(URI.file(full).toString());
    }
  }
  return found;
}

/** Folders of tools, which hold copies at best. */
function isPassedOver(name: string): boolean {
  return name.startsWith('.') || name === 'node_modules';
}
