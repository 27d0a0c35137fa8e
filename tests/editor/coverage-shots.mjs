/** Where every fault ends, as somebody looks at it: beside the text, after a mistake in it, down to one walk, and after the window was loaded again. */
import { accessible } from './host/accessible.mjs';
import { closeAll, command, goToText, openFile, webviewFrame } from './host/ui.mjs';

export const coverageShots = [
  {
    name: 'coverage',
    title: 'where every fault ends opens beside a procedure',
    keep: true,
    async show(page) {
      await closeAll(page);
      await openFile(page, 'battery-flat-overnight.procedure.yaml');
      if (await page.locator('.part.sidebar').isVisible()) await command(page, 'View: Close Primary Side Bar');
      await command(page, 'Faultwalk: Show Where Every Fault Ends');
      const view = await viewOf(page);
      await view.getByText('end well.').first().waitFor();
      await page.mouse.move(400, 500);
      await page.locator('.monaco-hover:visible', { hasText: 'More Actions' }).waitFor({ state: 'hidden' });
      await accessible(view);
    },
  },
  {
    name: 'coverage-walks',
    title: 'after a mistake the faults are walked anew, and a cell that is reached by the arrows opens its walks',
    async show(page) {
      await command(page, 'View: Focus First Editor Group');
      await goToText(page, 'mend: [W43, W1, W2]', 'mend: [W43'.length);
      for (let i = 0; i < ', W1, W2'.length; i++) await page.keyboard.press('Delete');
      await command(page, 'File: Save');
      const view = await viewOf(page);
      await view.getByText('end badly').first().waitFor({ timeout: 60_000 });
      await view.getByLabel('Only those that end badly').check();
      await rows(view, 2);
      const first = view.locator('.matrix [tabindex="0"]');
      await first.focus();
      await page.keyboard.press('ArrowDown');
      for (let i = 0; i < 2; i++) await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Enter');
      await view.locator('#walks-title:focus').waitFor();
      await view.locator('.matrix').scrollIntoViewIfNeeded();
      await accessible(view);
    },
  },
  {
    name: 'coverage-narrowed',
    title: 'a name leaves only its faults, also when the window is loaded again, and Escape closes the walks',
    async show(page) {
      const view = await viewOf(page);
      await view.getByLabel('Find a fault').fill('W1 open');
      await rows(view, 1);
      await Promise.all([page.waitForEvent('load', { timeout: 60_000 }), command(page, 'Developer: Reload Window')]);
      await page.locator('.tab', { hasText: 'Coverage' }).click({ timeout: 60_000 });
      const again = await viewOf(page, 60_000);
      await rows(again, 1);
      await again.locator('#walks-title').press('Escape');
      await again.locator('#walks').waitFor({ state: 'detached' });
    },
  },
  {
    name: 'coverage-stepped',
    title: 'a walk is stepped through in the preview',
    async show(page) {
      const view = await viewOf(page);
      await view.locator('.matrix .cell').first().press('Enter');
      await view
        .getByRole('button', { name: /^Walk it in the preview/ })
        .first()
        .press('Enter');
      const preview = await webviewFrame(page, '#sheet');
      await preview.locator('.history li').first().waitFor();
    },
    async after(page) {
      await closeAll(page);
      await command(page, 'View: Toggle Primary Side Bar Visibility');
    },
  },
];

function viewOf(page, ms) {
  return webviewFrame(page, '#coverage table', ms);
}

/** Waits until faults of so many owners are shown. */
async function rows(view, count) {
  await view.waitForFunction(many => document.querySelectorAll('.matrix tbody').length === many, count);
}
