/** The pictures, each with what must be seen before it is taken. Lines are found by their text, so that the examples may change. */
import { command, openFile } from './host/ui.mjs';

export const shots = [
  {
    name: 'walkthrough',
    title: 'the walkthrough opens',
    async show(page) {
      await command(page, 'Welcome: Open Walkthrough...');
      await page.keyboard.type('holds');
      await page.keyboard.press('Enter');
      await page.getByText('Describe the system once').first().waitFor();
    },
    after: closeAll,
  },
  {
    name: 'procedure',
    title: 'a procedure is open and the checker is ready',
    keep: true,
    async show(page) {
      await openFile(page, 'lamp-dark.procedure.yaml');
      await page.locator('.statusbar-item', { hasText: 'Faultwalk procedure' }).first().waitFor();
    },
  },
  {
    name: 'running-extensions',
    title: 'it starts quickly',
    async show(page) {
      await command(page, 'Developer: Show Running Extensions');
      const row = page
        .locator('.runtime-extensions-editor .extension')
        .filter({ hasText: /faultwalk/i })
        .first();
      await row.waitFor();
      return /(Startup )?Activation: \d+ms/.exec(await row.textContent())?.[0];
    },
    after: closeAll,
  },
];

async function closeAll(page) {
  await command(page, 'View: Close All Editors');
}
