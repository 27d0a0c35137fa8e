/** The preview as somebody works with it: by the keyboard, with a sample walk, from the text, and after the window was loaded again. */
import { accessible } from './host/accessible.mjs';
import { closeAll, command, goToText, openFile, webviewFrame } from './host/ui.mjs';

export const previewShots = [
  {
    name: 'preview',
    title: 'the preview takes readings and answers from the keyboard, and says what it cannot read',
    keep: true,
    async show(page) {
      await closeAll(page);
      await openFile(page, 'aux-flow-drops-out.procedure.yaml');
      await command(page, 'View: Toggle Primary Side Bar Visibility');
      await command(page, 'Faultwalk: Preview Procedure Beside');
      const view = await viewOf(page);
      for (const text of ['all sound', 'flow stops', 'Done', 'C1A05 keypad signal']) {
        await view.getByRole('button', { name: text, exact: true }).press('Enter');
      }
      await view.getByLabel('The meter shows').fill('5,01');
      await page.keyboard.press('Enter');
      await view.locator('#refused', { hasText: 'The unit is missing' }).waitFor();
      await view.getByRole('button', { name: 'Take it as 5,01 V' }).press('Enter');
      await history(view, 5);
      // What is asked next has the focus, so the next reading can be typed at once.
      await page.keyboard.type('5.01 V');
      await page.keyboard.press('Enter');
      await history(view, 6);
      await accessible(view);
    },
  },
  {
    name: 'preview-elsewhere',
    title: 'a step that the cursor stands in is looked at, and the walk stays where it is',
    async show(page) {
      await command(page, 'View: Focus First Editor Group');
      await goToText(page, 'Flow valve coil, plug off');
      const view = await viewOf(page);
      await view.locator('#title', { hasText: 'Flow valve coil' }).waitFor();
      await view.getByText('The walk stands at').waitFor();
      await history(view, 6);
    },
  },
  {
    name: 'preview-restored',
    title: 'the walk is still there when the window is loaded again',
    async show(page) {
      await Promise.all([page.waitForEvent('load', { timeout: 60_000 }), command(page, 'Developer: Reload Window')]);
      await page.locator('.tab', { hasText: 'Preview' }).click({ timeout: 60_000 });
      await history(await viewOf(page), 6);
    },
  },
  {
    name: 'preview-sample',
    title: 'a sample walk is played to its ending',
    async show(page) {
      const view = await viewOf(page);
      await view.getByLabel('Readings').selectOption('sense wire opens when the lever base is moved');
      await view.getByRole('button', { name: 'Give all sound' }).click();
      await history(view, 1);
      await view.getByRole('button', { name: 'To the end' }).click();
      await view.getByText('Reached its ending').waitFor();
      await history(view, 11);
      await accessible(view);
    },
    async after(page) {
      await closeAll(page);
      await command(page, 'View: Toggle Primary Side Bar Visibility');
    },
  },
];

function viewOf(page) {
  return webviewFrame(page, '#sheet');
}

/** Waits until so many steps are behind. */
async function history(view, count) {
  await view
    .locator('.history li')
    .nth(count - 1)
    .waitFor();
  const found = await view.locator('.history li').count();
  if (found !== count) throw new Error(`${found} steps are behind, not ${count}`);
}
