/**
 * Looks at the extension as its users see it: installs the package, opens the examples, and takes pictures into
 * `.artifacts/screenshots/`. Whatever cannot be shown is a failure.
 *
 *   node tests/editor/look.mjs --vsix FILE [--results FILE.json] [--keep DIR]     --keep: only the pictures of the README
 */
import * as fs from 'node:fs';
import * as path from 'node:path';
import { parseArgs } from 'node:util';
import { openBrowser } from './host/browser.mjs';
import { startHost } from './host/host.mjs';
import { root, setUpHost } from './host/setup.mjs';
import { openWorkbench } from './host/ui.mjs';
import { workingCopy } from './host/workspace.mjs';
import { sessions, shots } from './shots.mjs';

const { values: options } = parseArgs({
  options: {
    vsix: { type: 'string' },
    results: { type: 'string' },
    keep: { type: 'string' },
    only: { type: 'string' },
  },
});
const results = { passed: 0, failed: 0, failures: [] };

setUpHost();
const browser = await openBrowser();
if (options.keep) {
  const kept = shots.filter(({ keep }) => keep);
  await look({ ...sessions[0], shots: kept }, name => path.join(options.keep, `${name}.png`));
} else {
  for (const session of sessions) {
    console.log(` ${session.name}`);
    await look(session, name => path.join(root, '.artifacts/screenshots', `${name}-${session.name}.png`));
  }
}
await browser.close();
console.log(`${results.passed} passed, ${results.failed} failed`);
if (options.results) fs.writeFileSync(options.results, JSON.stringify(results));
process.exitCode = results.failed === 0 ? 0 : 1;

/** Opens one workbench and takes its pictures, one after the other. */
async function look(session, pathOf) {
  const workspace = workingCopy();
  const host = await startHost({
    vsix: [path.resolve(options.vsix)],
    trusting: session.trusting,
    settings: { 'workbench.colorTheme': session.theme, 'window.title': 'Faultwalk', 'editor.minimap.enabled': false },
  });
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  page.setDefaultTimeout(15_000);
  try {
    await openWorkbench(page, host.url, session.severalRoots ? workspace.severalRoots() : workspace.folder);
    for (const shot of session.shots) {
      if (options.only === undefined || shot.name === options.only) await take(shot, page, pathOf(shot.name));
    }
  } finally {
    await page.close();
    await host.stop();
    workspace.remove();
  }
}

async function take(shot, page, file) {
  try {
    const said = await shot.show(page);
    results.passed++;
    console.log(`  ✔ ${shot.title}${said ? `: ${said}` : ''}`);
  } catch (error) {
    results.failed++;
    results.failures.push(`${shot.title}\n${error.message}`);
    console.log(`  ✘ ${shot.title}\n${error.message}`);
  }
  fs.mkdirSync(path.dirname(file), { recursive: true });
  await page.screenshot({ path: file });
  await shot.after?.(page);
}
