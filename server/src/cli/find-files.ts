import * as fs from 'node:fs/promises';
import * as path from 'node:path';
import { glob } from 'tinyglobby';
import { closest } from '../base/closest.ts';
import { fileKindOf } from '../schema/root.ts';
import { shortName } from './project.ts';
import { WrongUse } from './wrong-use.ts';

/** Full names of the files of ours that the paths name or hold, each once, in order. Throws `WrongUse` for a path without any. */
export async function findFiles(folder: string, paths: readonly string[]): Promise<string[]> {
  const found = new Set<string>();
  for (const given of paths) {
    const full = path.resolve(folder, given);
    const facts = await fs.stat(full).catch(() => undefined);
    if (!facts) throw await noSuchPath(folder, given, full);
    for (const file of facts.isDirectory() ? await filesBelow(given, full) : [ofOurs(given, full)]) found.add(file);
  }
  return [...found].sort((a, b) => {
    const [one, other] = [shortName(folder, a), shortName(folder, b)];
    return one < other ? -1 : one > other ? 1 : 0;
  });
}

async function filesBelow(given: string, cwd: string): Promise<string[]> {
  const found = await glob('**/*.{system,procedure,samples}.{yaml,yml}', {
    cwd,
    absolute: true,
    caseSensitiveMatch: false,
    followSymbolicLinks: false,
    ignore: ['**/node_modules/**', '**/dist/**', '**/.git/**'],
  });
  if (found.length === 0) throw new WrongUse(`\`${given}\` holds no file to check`, naming);
  return found.map(file => path.normalize(file));
}

function ofOurs(given: string, full: string): string {
  if (fileKindOf(full)) return full;
  throw new WrongUse(`\`${given}\` is no system, procedure or samples file by its name`, naming);
}

const naming = 'files end in `.system.yaml`, `.procedure.yaml` or `.samples.yaml`';

async function noSuchPath(folder: string, given: string, full: string): Promise<WrongUse> {
  const beside = await fs.readdir(path.dirname(full)).catch(() => []);
  const near = closest(path.basename(full), beside);
  const meant = near && shortName(folder, path.join(path.dirname(full), near));
  return new WrongUse(`There is no file or folder \`${given}\``, meant && `did you mean \`${meant}\`?`);
}
