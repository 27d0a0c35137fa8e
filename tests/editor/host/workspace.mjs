/**
 * A folder with copies of the examples and the fixtures, so that whatever a run writes never reaches the project. The gallery of broken
 * ones is left out, because its files are called like the clean ones.
 */
import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { root } from './setup.mjs';

/** Gives `{ folder, severalRoots(), remove() }`; the folder has a plain name, because pictures show it. */
export function workingCopy() {
  const parent = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'faultwalk-')));
  const folder = path.join(parent, 'procedures');
  for (const source of ['examples', 'tests/editor/fixtures']) {
    fs.cpSync(path.join(root, source), folder, { recursive: true, filter: file => path.basename(file) !== 'broken' });
  }
  return {
    folder,
    /** A workspace file in which each folder of the copy is a root of its own. */
    severalRoots() {
      const entries = fs.readdirSync(folder, { withFileTypes: true }).filter(entry => entry.isDirectory());
      const file = path.join(parent, 'procedures.code-workspace');
      const folders = entries.map(({ name }) => ({ path: path.join('procedures', name) }));
      fs.writeFileSync(file, JSON.stringify({ folders }));
      return file;
    },
    remove: () => fs.rmSync(parent, { recursive: true, force: true }),
  };
}
