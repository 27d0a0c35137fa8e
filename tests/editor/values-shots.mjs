/** The table of values as somebody works with it: beside the text, narrowed by a name, and after the window was loaded again. */
import { accessible } from './host/accessible.mjs';
import { closeAll, command, openFile, webviewFrame } from './host/ui.mjs';

export const valuesShots = [
  {
    name: 'values',
    title: 'the values table opens beside a system, and a place in it is shown in the text',
    keep: true,
    async show(page) {
      await closeAll(page);
      await openFile(page, 'loader-aux.system.yaml');
      // Shots before this one may have left it closed, and what is closed cannot be closed.
      if (await page.locator('.part.sidebar').isVisible()) await command(page, 'View: Close Primary Side Bar');
      await command(page, 'Faultwalk: Show the Values Table');
      const view = await viewOf(page);
      const keypad = view.getByRole('button', { name: 'A1.14', exact: true });
      await view.getByRole('cell', { name: 'S6: on', exact: true }).first().waitFor();
      await keypad.press('Enter');
      await page.locator('.view-line', { hasText: 'Loader control module' }).first().waitFor();
      await keypad.scrollIntoViewIfNeeded();
      // Whatever the pointer came to rest on would tell its name in the picture.
      await page.mouse.move(400, 500);
      await page.locator('.monaco-hover:visible', { hasText: 'More Actions' }).waitFor({ state: 'hidden' });
      await accessible(view);
    },
  },
  {
    name: 'values-narrowed',
    title: 'a name leaves only its places, in the variant that was chosen, also when the window is loaded again',
    async show(page) {
      const view = await viewOf(page);
      await view.getByLabel('Machine').selectOption({ index: 1 });
      await view.getByRole('button', { name: 'A1.22' }).waitFor();
      await view.getByLabel('Find a place').fill('k3');
      await left(view, 7);
      await Promise.all([page.waitForEvent('load', { timeout: 60_000 }), command(page, 'Developer: Reload Window')]);
      await page.locator('.tab', { hasText: 'Values' }).click({ timeout: 60_000 });
      await left(await viewOf(page), 7);
    },
    async after(page) {
      await closeAll(page);
      await command(page, 'View: Toggle Primary Side Bar Visibility');
    },
  },
];

function viewOf(page) {
  return webviewFrame(page, '#values table');
}

/** Waits until so many places are shown. */
async function left(view, count) {
  await view.locator('tbody:not([hidden])').first().waitFor();
  const found = await view.locator('tbody:not([hidden])').count();
  if (found !== count) throw new Error(`${found} places are shown, not ${count}`);
}
