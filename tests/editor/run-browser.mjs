/**
 * Runs the suite inside the extension host of the browser-hosted workbench.
 *
 *   node tests/editor/run-browser.mjs [pattern]     only tests whose name holds the pattern
 */
import * as fs from 'node:fs';
import * as path from 'node:path';
import { format } from 'node:util';
import { openBrowser } from './host/browser.mjs';
import { pause, startHost, within } from './host/host.mjs';
import { root, setUpHost } from './host/setup.mjs';
import { workingCopy } from './host/workspace.mjs';

const limitMs = 240_000;

/** Runs the suite and gives its exit code, 0 when everything passed. */
export async function runInBrowser({ pattern = '', results }) {
  setUpHost();
  const browser = await openBrowser();
  const folder = workingCopy();
  const host = await startHost({ env: { FAULTWALK_TESTS: pattern, FAULTWALK_RESULTS: results } });
  console.log(`VS Code in code-server ${host.version}, ${browser.browserType().name()} ${browser.version()}`);
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  try {
    const finished = new Promise(resolve => page.exposeFunction('codeAutomationExit', resolve));
    await page.exposeFunction('codeAutomationLog', () => undefined);
    const drained = printOutputOf(page);
    const remote = file => `vscode-remote://${new URL(host.url).host}${file}`;
    const payload = [
      ['extensionDevelopmentPath', remote(root)],
      ['extensionTestsPath', remote(path.join(root, 'dist/test/index.cjs'))],
    ];
    const query = new URLSearchParams({ folder, payload: JSON.stringify(payload) });
    await page.goto(`${host.url}/?${query}`);
    const code = await within(limitMs, finished, () => `The suite did not end within ${limitMs / 1000} s`);
    await pause(200);
    await drained();
    if (code !== 0) await keepPicture(page, 'suite-failed');
    return code;
  } catch (error) {
    await keepPicture(page, 'suite-failed');
    console.log(host.log());
    throw error;
  } finally {
    await browser.close();
    await host.stop();
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

/** What the suite prints arrives in the console of the page, mixed with the workbench's own remarks. */
function printOutputOf(page) {
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

async function keepPicture(page, name) {
  const dir = path.join(root, '.artifacts/screenshots');
  fs.mkdirSync(dir, { recursive: true });
  await page.screenshot({ path: path.join(dir, `${name}.png`) }).catch(() => undefined);
}

if (process.argv[1] === import.meta.filename) {
  const results = path.join(root, '.artifacts/editor.json');
  process.exit(await runInBrowser({ pattern: process.argv[2], results }));
}
