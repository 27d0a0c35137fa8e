/**
 * Installs a real VS Code workbench that is shown in a browser, into `.editor-host/` and from the package registry alone.
 * It brings a newer Node of its own, so that the project can stay on its own version.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import * as fs from 'node:fs';
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';

const here = path.dirname(fileURLToPath(import.meta.url));

/** The root of the project. */
export const root = path.resolve(here, '../../..');

/** Where the workbench is installed; it is left in place and used again while its stamp fits. */
export const hostDir = path.join(root, '.editor-host');

/** Installs the workbench unless it stands there already. Throws a sentence for the reader when it cannot be had. */
export function setUpHost(log = console.log) {
  const stampFile = path.join(hostDir, 'stamp');
  const wanted = stamp();
  if (fs.existsSync(stampFile) && fs.readFileSync(stampFile, 'utf8') === wanted) return;
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error(
      `The browser-hosted workbench is only put together for Linux on x64, not ${process.platform} ${process.arch}`,
    );
  }
  log('Installing the browser-hosted workbench (about 600 MB, once)');
  fs.rmSync(hostDir, { recursive: true, force: true });
  fs.mkdirSync(hostDir, { recursive: true });
  fs.copyFileSync(path.join(here, 'package.json'), path.join(hostDir, 'package.json'));
  npmInstall(hostDir);

  const editor = path.join(hostDir, 'node_modules/code-server/lib/vscode');
  npmInstall(editor);
  // What its own install script would have done. Its two compiled helpers, for log files and for noticing a lost parent, are left
  // out: it runs without them, and so no compiler is asked for.
  fs.rmSync(path.join(editor, 'node_modules.asar'), { recursive: true, force: true });
  fs.symlinkSync('node_modules', path.join(editor, 'node_modules.asar'));
  for (const unused of ['@github', '@microsoft/mxc-sdk']) {
    fs.rmSync(path.join(editor, 'node_modules', unused), { recursive: true, force: true });
  }
  fs.writeFileSync(stampFile, wanted);
}

function npmInstall(cwd) {
  const npm = spawnSync(
    'npm',
    ['install', '--ignore-scripts', '--omit=dev', '--no-audit', '--no-fund', '--loglevel=error'],
    {
      cwd,
      encoding: 'utf8',
    },
  );
  if (npm.status !== 0) throw new Error(`The workbench could not be installed: ${npm.stderr || npm.error?.message}`);
}

/** Changes whenever the versions or this script change. */
function stamp() {
  const hash = createHash('sha256');
  for (const file of ['package.json', 'setup.mjs']) hash.update(fs.readFileSync(path.join(here, file)));
  return hash.digest('hex');
}
