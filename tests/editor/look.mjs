/**
 * Looks at the extension as its users see it: installs the package, opens the examples, and takes pictures in a light and a dark theme
 * into `.artifacts/screenshots/`. Whatever cannot be shown is a failure.
 *
 *   node tests/editor/look.mjs --vsix FILE [--results FILE.json] [--keep DIR]     --keep: the pictures of the README, light only
 */
import * as fs from 'node:fs';
import * as path from 'node:path';
import { parseArgs } from 'node:util';
import { openBrowser } from './host/browser.mjs';
import { startHost } from './host/host.mjs';
import { root, setUpHost } from './host/setup.mjs';
import { openFolder } from './host/ui.mjs';
import { workingCopy } from './host/workspace.mjs';
import { shots } from './shots.mjs';

const themes = { light: 'Default Light Modern', dark: 'Default Dark Modern' };
const { values: options } = parseArgs({
  options: {
    vsix: { type: 'string' },
    results: { type: 'string' },
    keep: { type: 'string' },
    only: { type: 'string' },
  },
});
const counts = { passed: 0, failed: 0 };

setUpHost();
const browser = await openBrowser();
for (const [name, theme] of Object.entries(themes)) {
  if (options.keep && name !== 'light') continue;
  await lookIn(theme, file =>
    path.join(
      options.keep ?? path.join(root, '.artifacts/screenshots'),
      `${file}${options.keep ? '' : `-${name}`}.png`,
    ),
  );
}
await browser.close();
console.log(`${counts.passed} passed, ${counts.failed} failed`);
if (options.results) fs.writeFileSync(options.results, JSON.stringify(counts));
process.exitCode = counts.failed === 0 ? 0 : 1;

async function lookIn(theme, pathOf) {
  const workspace = workingCopy();
  const host = await startHost({
    vsix: [path.resolve(options.vsix)],
    settings: { 'workbench.colorTheme': theme, 'window.title': 'Faultwalk', 'editor.minimap.enabled': false },
  });
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  page.setDefaultTimeout(15_000);
  try {
    await openFolder(page, host.url, workspace.folder);
    for (const shot of shots) {
      if (options.only && shot.name !== options.only) continue;
      if (options.keep && !shot.keep) continue;
      await take(shot, page, pathOf(shot.name));
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
    counts.passed++;
    console.log(`  ✔ ${shot.title}${said ? `: ${said}` : ''}`);
  } catch (error) {
    counts.failed++;
    console.log(`  ✘ ${shot.title}\n${error.message}`);
  }
  fs.mkdirSync(path.dirname(file), { recursive: true });
  await page.screenshot({ path: file });
  await shot.after?.(page);
}
