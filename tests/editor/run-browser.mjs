/**
 * Runs the suite inside the extension host of the browser-hosted workbench.
 *
 *   node tests/editor/run-browser.mjs [--vsix FILE] [--grep TEXT] [--results FILE.json]
 *
 * With `--vsix` the package is installed first and tested as a user has it; without, the checkout is.
 */
import * as path from 'node:path';
import { format, parseArgs } from 'node:util';
import { openBrowser } from './host/browser.mjs';
import { pause, startHost, within } from './host/host.mjs';
import { root, setUpHost } from './host/setup.mjs';
import { workingCopy } from './host/workspace.mjs';

const limitMs = 600_000;
const { values: options } = parseArgs({
  options: { vsix: { type: 'string' }, grep: { type: 'string' }, results: { type: 'string' } },
});

setUpHost();
const browser = await openBrowser();
const workspace = workingCopy();
const host = await startHost({
  vsix: options.vsix ? [path.resolve(options.vsix)] : [],
  env: { FAULTWALK_TESTS: options.grep ?? '', FAULTWALK_RESULTS: options.results ? path.resolve(options.results) : '' },
});
console.log(`VS Code of code-server ${host.version}, shown in ${browser.browserType().name()} ${browser.version()}`);
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
try {
  process.exitCode = await runSuite();
} catch (error) {
  console.log(error.message, '\n', host.log());
  process.exitCode = 1;
} finally {
  if (process.exitCode !== 0) await keepPicture();
  await browser.close();
  await host.stop();
  workspace.remove();
}

/** Gives the exit code of the suite, 0 when everything passed. */
async function runSuite() {
  const finished = new Promise(resolve => page.exposeFunction('codeAutomationExit', resolve));
  await page.exposeFunction('codeAutomationLog', () => undefined);
  const printed = printOutput();
  const remote = file => `vscode-remote://${new URL(host.url).host}${path.join(root, file)}`;
  const payload = [
    ['extensionDevelopmentPath', remote(options.vsix ? 'tests/editor/driver' : '.')],
    ['extensionTestsPath', remote('dist/test/index.cjs')],
  ];
  await page.goto(
    `${host.url}/?${new URLSearchParams({ folder: workspace.folder, payload: JSON.stringify(payload) })}`,
  );
  const code = await within(limitMs, finished, () => `The suite did not end within ${limitMs / 1000} s`);
  await pause(200);
  await printed();
  return code;
}

/** What the suite prints arrives in the console of the page, mixed with the workbench's own remarks. */
function printOutput() {
  let tail = Promise.resolve();
  const ownRemarks = /^(Resolv|Creating a socket|\[|Updating additional|ChatSession|Found unexpected)/;
  page.on('console', message => {
    tail = tail.then(async () => {
      const args = await Promise.all(message.args().map(arg => arg.jsonValue().catch(() => '?')));
      if (!/^%c INFO/.test(String(args[0]))) return;
      const line = format(...args.slice(2));
      if (!ownRemarks.test(line)) console.log(line);
    });
    tail = tail.catch(() => undefined);
  });
  return () => tail;
}

async function keepPicture() {
  const file = path.join(root, '.artifacts/screenshots/suite-failed.png');
  await page.screenshot({ path: file }).catch(() => undefined);
}
