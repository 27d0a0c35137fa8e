/**
 * What a person does in the workbench: commands, files, hovers. The quick input may close again when a webview takes the focus,
 * so each of its steps is tried anew.
 */
import { pause } from './host.mjs';

/** Opens a folder, or a file that lists several, in the workbench at `url` and waits until it can be used. */
export async function openWorkbench(page, url, opened) {
  const key = opened.endsWith('.code-workspace') ? 'workspace' : 'folder';
  await page.goto(`${url}/?${new URLSearchParams({ [key]: opened })}`);
  await page.locator('.monaco-workbench .explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 60_000 });
}

export function command(page, title) {
  return choose(page, 'F1', `>${title}`, title);
}

export async function openFile(page, name) {
  await choose(page, 'Control+P', name, name);
  await page.locator('.tab.active', { hasText: name }).first().waitFor();
}

export async function closeAll(page) {
  await command(page, 'View: Close All Editors');
}

/** Puts the cursor where `text` first stands in the open file, `offset` characters into it. */
export async function goToText(page, text, offset = 0) {
  await page.keyboard.press('Control+Home');
  await page.keyboard.press('Control+F');
  const find = page
    .locator('.find-widget.visible .find-part textarea, .find-widget.visible .find-part .native-edit-context')
    .first();
  await find.waitFor();
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  await page.locator('.find-widget.visible').waitFor({ state: 'hidden' });
  await pause(300); // It slides out of the picture.
  await page.keyboard.press('ArrowLeft');
  for (let i = 0; i < offset; i++) await page.keyboard.press('ArrowRight');
}

/** Shows the hover at the cursor, as the keyboard does it, and waits until it says something that fits `text`. */
export function hover(page, text) {
  return press(page, ['Control+K', 'Control+I'], page.locator('.monaco-hover:visible').filter({ hasText: text }));
}

/** Opens the list of corrections at the cursor and waits until one fits `text`. */
export function corrections(page, text) {
  return press(page, ['Control+.'], page.locator('.action-widget:visible').filter({ hasText: text }));
}

/** Presses the keys until they have brought up what is looked for; a busy editor may lose them. */
async function press(page, keys, found) {
  for (let i = 0; i < 8 && (await found.count()) === 0; i++) {
    for (const key of keys) await page.keyboard.press(key);
    await found
      .first()
      .waitFor({ timeout: 4000 })
      .catch(() => undefined);
  }
  await found.first().waitFor({ timeout: 1000 });
}

/** The frame of the webview in which `selector` stands; several webviews may be open at once. */
export async function webviewFrame(page, selector, ms = 20_000) {
  const end = Date.now() + ms;
  for (;;) {
    for (const frame of page.frames()) {
      if (!frame.url().includes('/webview/browser/pre/fake.html')) continue;
      if (
        await frame
          .locator(selector)
          .count()
          .catch(() => 0)
      )
        return frame;
    }
    if (Date.now() > end) throw new Error(`No webview shows ${selector}`);
    await pause(100);
  }
}

/** Takes the row with this text from the list that is open. */
export async function pick(page, row) {
  await page.locator('.quick-input-widget:visible .monaco-list-row').filter({ hasText: row }).first().click();
}

async function choose(page, key, text, row) {
  const widget = page.locator('.quick-input-widget:visible');
  let last;
  for (let i = 0; i < 6; i++) {
    try {
      await page.keyboard.press(key);
      await widget.locator('input.input').first().fill(text, { timeout: 3000 });
      await widget.locator('.monaco-list-row').filter({ hasText: row }).first().click({ timeout: 4000 });
      await widget.waitFor({ state: 'hidden', timeout: 4000 }).catch(() => undefined);
      return;
    } catch (error) {
      last = error;
      await page.keyboard.press('Escape');
      await pause(300);
    }
  }
  throw last;
}
