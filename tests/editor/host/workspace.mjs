/** A copy of the examples for one run, so that whatever the suite writes never reaches the project. */
import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { root } from './setup.mjs';

export function workingCopy() {
  const folder = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'faultwalk-workspace-')));
  fs.cpSync(path.join(root, 'examples'), path.join(folder, 'examples'), { recursive: true });
  fs.cpSync(path.join(root, 'tests/editor/fixtures'), folder, { recursive: true });
  return folder;
}
