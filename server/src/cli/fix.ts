import * as fs from 'node:fs/promises';
import * as path from 'node:path';
import { URI } from 'vscode-uri';
import { fixAll } from '../features/code-actions.ts';
import type { Replacement } from '../features/project.ts';
import { checkFile } from '../rules/run.ts';
import type { Project } from './project.ts';
import { WrongUse } from './wrong-use.ts';

/** Makes the fixes that are certainly meant in the named files until none is left, and writes what has changed. */
export async function fixFiles(project: Project): Promise<void> {
  const { workspace, named } = project;
  const before = new Map(named.map(uri => [uri, project.view(uri).tree.text]));
  // Texts that were there already: fixes that undo one another come to an end as well.
  const met = new Map(named.map(uri => [uri, new Set<string>()]));
  for (let isChanged = true; isChanged; ) {
    isChanged = false;
    for (const uri of named) {
      const view = project.view(uri);
      const { text } = view.tree;
      // What was not UTF-8 could not be written back as it was.
      if (text.includes('\ufffd')) continue;
      const fixed = replaced(text, fixAll(workspace, uri, checkFile(view)));
      if (fixed === text || met.get(uri)!.has(fixed)) continue;
      met.get(uri)!.add(text);
      workspace.set(uri, fixed);
      isChanged = true;
    }
  }
  for (const [uri, text] of before) {
    const fixed = project.view(uri).tree.text;
    if (fixed !== text) await write(URI.parse(uri).fsPath, fixed, project.path(uri));
  }
}

/** The text with every replacement made; what is put in has the line ends of the text. */
function replaced(text: string, replacements: readonly Replacement[]): string {
  const lineEnd = text.includes('\r\n') ? '\r\n' : '\n';
  return replacements.reduceRight(
    (now, { start, end, text: put }) => now.slice(0, start) + put.replace(/\r?\n/g, lineEnd) + now.slice(end),
    text,
  );
}

/** Writes beside the file and then puts that in its place, so that nobody ever sees half a file. */
async function write(file: string, text: string, name: string): Promise<void> {
  try {
    const real = await fs.realpath(file);
    const { mode } = await fs.stat(real);
    await fs.access(real, fs.constants.W_OK);
    const beside = path.join(path.dirname(real), `.${path.basename(real)}.${process.pid}.tmp`);
    try {
      await fs.writeFile(beside, text, { mode });
      await fs.rename(beside, real);
    } catch (error) {
      await fs.rm(beside, { force: true });
      throw error;
    }
  } catch {
    throw new WrongUse(`\`${name}\` cannot be written`, 'check that you may write it');
  }
}
