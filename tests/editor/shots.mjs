/** The pictures, each with what must be seen before it is taken. `keep` ones stand in the README. */
import { command, openFile } from './host/ui.mjs';

export const shots = [
  {
    name: 'walkthrough',
    title: 'the walkthrough opens',
    async show(page) {
      await command(page, 'View: Toggle Primary Side Bar Visibility');
      await command(page, 'Welcome: Open Walkthrough...');
      await page.keyboard.type('holds');
      await page.keyboard.press('Enter');
      await page.getByText('See every hole while typing').first().click();
      await page
        .frameLocator('iframe.webview.ready')
        .frameLocator('iframe#active-frame')
        .getByText('Ctrl+Shift+M')
        .waitFor();
    },
    async after(page) {
      await closeAll(page);
      await command(page, 'View: Toggle Primary Side Bar Visibility');
    },
  },
  {
    name: 'procedure',
    title: 'a procedure opens in colours, and the checker is ready',
    keep: true,
    async show(page) {
      await openFile(page, 'lamp-dark.procedure.yaml');
      await coloured(page);
      await page.locator('.statusbar-item', { hasText: 'Faultwalk Procedure' }).first().waitFor();
    },
  },
  {
    name: 'running-extensions',
    title: 'it starts quickly',
    async show(page) {
      await command(page, 'Developer: Show Running Extensions');
      const rows = page.locator('.runtime-extensions-editor .extension');
      const row = rows.filter({ hasText: 'Faultwalk' }).first();
      await row.waitFor();
      return /Activation: \d+ms/.exec(await row.textContent())?.[0];
    },
    after: closeAll,
  },
];

async function closeAll(page) {
  await command(page, 'View: Close All Editors');
}

/** The colours come some time after the text; a page without them has one class of token. */
async function coloured(page) {
  await page.waitForFunction(
    () => new Set([...document.querySelectorAll('.view-line span span')].map(span => span.className)).size > 2,
  );
}
