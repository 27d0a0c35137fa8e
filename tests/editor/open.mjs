/**
 * Checks the examples in the terminal, then opens them in an editor with the extension in it: the reader's own VS Code if there is
 * one, else a workbench that is shown in a browser.
 *
 *   npm run try [-- --browser] [-- --port 8080] [-- --once]
 *
 * `--browser` leaves an installed VS Code alone; `--once` ends as soon as the browser-hosted workbench has answered.
 */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import * as path from 'node:path';
import { parseArgs } from 'node:util';
import { startHost } from './host/host.mjs';
import { root, setUpHost } from './host/setup.mjs';

const examples = path.join(root, 'examples');
/** The folders of the clean examples; the gallery of broken ones would fill the list of problems. */
const workspace = path.join(examples, 'examples.code-workspace');
const { values: options } = parseArgs({
  options: { browser: { type: 'boolean' }, once: { type: 'boolean' }, port: { type: 'string', default: '0' } },
});

process.exitCode = checkExamples();
if (process.exitCode === 0 && (options.browser || options.once || !openInOwnEditor())) await openInBrowser();

/** Every folder of examples but the gallery of broken ones; gives the exit status of the check. */
function checkExamples() {
  const clean = fs
    .readdirSync(examples, { withFileTypes: true })
    .filter(entry => entry.isDirectory() && entry.name !== 'broken')
    .map(entry => path.join('examples', entry.name));
  console.log(`npx faultwalk check ${clean.join(' ')}`);
  const check = spawnSync(process.execPath, ['dist/cli.cjs', 'check', ...clean], { cwd: root, stdio: 'inherit' });
  return check.status ?? 1;
}

/** Nothing is installed there: the window runs the extension from this folder. False where there is no VS Code to open. */
function openInOwnEditor() {
  const named = process.env.VSCODE_EXECUTABLE;
  const program = [...(named ? [named] : []), 'code', 'code-insiders', 'codium'].find(
    name => spawnSync(name, ['--version'], { stdio: 'ignore', shell: process.platform === 'win32' }).status === 0,
  );
  if (program === undefined) return false;
  const opened = spawnSync(program, [`--extensionDevelopmentPath=${root}`, '--new-window', workspace], {
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (opened.status !== 0) return false;
  console.log('The examples are open in your VS Code.');
  return true;
}

async function openInBrowser() {
  setUpHost();
  const host = await startHost({ vsix: [packed()], port: Number(options.port) });
  const stopped = new Promise(resolve => {
    process.once('SIGINT', resolve);
    process.once('SIGTERM', resolve);
  });
  const address = `${host.url}/?${new URLSearchParams({ workspace })}`;
  console.log(`\nThe examples are open at  ${address}`);
  if (options.once) {
    const page = await fetch(address);
    console.log(`It answered with ${page.status}.`);
    process.exitCode = page.ok ? 0 : 1;
  } else {
    console.log('Open that address in a browser of this machine. Ctrl+C ends it.');
    await stopped;
  }
  await host.stop();
}

function packed() {
  const file = path.join(root, '.artifacts/faultwalk.vsix');
  fs.mkdirSync(path.dirname(file), { recursive: true });
  const run = spawnSync('npm', ['run', '--silent', 'package', '--', '--out', file], { cwd: root, encoding: 'utf8' });
  if (run.status !== 0) throw new Error(`The extension could not be packed\n${run.stdout}${run.stderr}`);
  return file;
}
