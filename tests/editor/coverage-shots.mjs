/** Where every fault ends, as somebody looks at it: beside the text, down to one walk, and after the window was loaded again. */
import { closeAll, command, openFile, webviewFrame } from './host/ui.mjs';

export const coverageShots = [
  {
    name: 'coverage',
    title: 'where every fault ends opens beside a procedure',
    keep: true,
    async show(page) {
      await closeAll(page);
      await openFile(page, 'lamp-dark.procedure.yaml');
      if (await page.locator('.part.sidebar').isVisible()) await command(page, 'View: Close Primary Side Bar');
      await command(page, 'Faultwalk: Show Where Every Fault Ends');
      const view = await viewOf(page);
      await view.getByRole('heading', { name: 'Faults by endings' }).waitFor();
      await page.mouse.move(400, 500);
      await page.locator('.monaco-hover:visible', { hasText: 'More Actions' }).waitFor({ state: 'hidden' });
    },
  },
  {
    name: 'coverage-walks',
    title: 'a cell is reached by the arrows and opens its walks, and a walk opens in the preview',
    async show(page) {
      const view = await viewOf(page);
      await view.locator('.matrix [tabindex="0"]').focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Enter');
      await view.locator('#walks-title:focus').waitFor();
      await view
        .getByRole('button', { name: /^Walk .* in the preview$/ })
        .first()
        .waitFor();
    },
  },
  {
    name: 'coverage-narrowed',
    title: 'a name leaves only its faults, also when the window is loaded again, and Escape closes the walks',
    async show(page) {
      const view = await viewOf(page);
      await view.getByLabel('Find a fault').fill('W4');
      await rows(view, 1);
      await Promise.all([page.waitForEvent('load', { timeout: 60_000 }), command(page, 'Developer: Reload Window')]);
      await page.locator('.tab', { hasText: 'Coverage' }).click({ timeout: 60_000 });
      const again = await viewOf(page);
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
        .getByRole('button', { name: /^Walk .* in the preview$/ })
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

function viewOf(page) {
  return webviewFrame(page, '#coverage table');
}

/** Waits until faults of so many owners are shown. */
async function rows(view, count) {
  await view.waitForFunction(many => document.querySelectorAll('.matrix tbody').length === many, count);
}
