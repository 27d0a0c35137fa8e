/** The pictures, each with what must be seen before it is taken. `keep` ones stand in the README and the walkthrough. */
import { coverageShots } from './coverage-shots.mjs';
import { closeAll, command, corrections, goToText, hover, openFile, pick } from './host/ui.mjs';
import { previewShots } from './preview-shots.mjs';
import { typingShot } from './typing-shot.mjs';
import { valuesShots } from './values-shots.mjs';

export const shots = [
  {
    name: 'walkthrough',
    title: 'the walkthrough opens, with a page beside each step',
    async show(page) {
      await command(page, 'View: Toggle Primary Side Bar Visibility');
      await command(page, 'Welcome: Open Walkthrough...');
      await pick(page, 'holds');
      await page.getByText('See every hole while typing').first().click();
      const frame = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
      await frame.getByText('Ctrl+Shift+M').waitFor();
    },
    async after(page) {
      await closeAll(page);
      await command(page, 'View: Toggle Primary Side Bar Visibility');
    },
  },
  {
    name: 'procedure',
    title: 'a procedure opens in colours, with the range of the circuit beside its limits',
    keep: true,
    async show(page) {
      await openFile(page, 'aux-flow-drops-out.procedure.yaml');
      await coloured(page);
      await goToText(page, 'measure: voltage');
      await page.locator('.view-line', { hasText: 'circuit:' }).first().waitFor();
      await page.locator('.codelens-decoration:visible', { hasText: 'here' }).first().waitFor();
      await idle(page);
    },
    after: closeAll,
  },
  {
    name: 'system',
    title: 'a system opens in colours',
    async show(page) {
      await openFile(page, 'loader-aux.system.yaml');
      await coloured(page);
    },
    after: closeAll,
  },
  {
    name: 'findings',
    title: 'findings are marked in the text and listed, and a hover tells why',
    keep: true,
    async show(page) {
      await openFile(page, 'lamp-dim.procedure.yaml');
      await page.locator('.monaco-editor .squiggly-error').first().waitFor({ state: 'attached' });
      await command(page, 'View: Toggle Primary Side Bar Visibility');
      await command(page, 'Problems: Focus on Problems View');
      await page.locator('.markers-panel .monaco-list-row').nth(1).waitFor();
      await idle(page);
      await page.locator('.monaco-editor .view-line').first().click();
      await goToText(page, 'limits: 11.5 V', 'limits: '.length);
      await hover(page, 'V');
    },
    async after(page) {
      await page.keyboard.press('Escape');
      await command(page, 'View: Toggle Panel Visibility');
      await command(page, 'View: Toggle Primary Side Bar Visibility');
    },
  },
  {
    name: 'quick-fix',
    title: 'the light bulb offers the correction',
    async show(page) {
      await openFile(page, 'lamp-dim.procedure.yaml');
      await page.locator('.monaco-editor .squiggly-error').first().waitFor({ state: 'attached' });
      await goToText(page, 'replace-lmap');
      await corrections(page, 'replace-lamp');
    },
    after: page => page.keyboard.press('Escape'),
  },
  {
    name: 'completion',
    title: 'completion offers what fits the place',
    async show(page) {
      await openFile(page, 'lamp-dim.procedure.yaml');
      await goToText(page, 'red: R2.1', 'red: R2.1'.length);
      for (let i = 0; i < 'R2.1'.length; i++) await page.keyboard.press('Backspace');
      await page.keyboard.press('Control+Space');
      await page.locator('.suggest-widget.visible .monaco-list-row', { hasText: 'R2' }).first().waitFor();
    },
    async after(page) {
      await page.keyboard.press('Escape');
      await command(page, 'File: Revert File');
      await closeAll(page);
    },
  },
  typingShot,
  ...previewShots,
  ...valuesShots,
  ...coverageShots,
  {
    name: 'status',
    title: 'the status item says what the checker is doing',
    async show(page) {
      await openFile(page, 'lamp-dark.procedure.yaml');
      await page.locator('.statusbar-item', { hasText: 'Faultwalk Procedure' }).first().waitFor();
      await page.locator('#status\\.languageStatus').hover();
      await page.locator('.hover-language-status:visible', { hasText: 'Restart' }).waitFor();
    },
    after: closeAll,
  },
  {
    name: 'rule-page',
    title: 'the page of a rule opens',
    async show(page) {
      await command(page, 'Faultwalk: Show the Page of a Rule');
      await page.locator('.quick-input-widget:visible .monaco-list-row').first().waitFor();
      await page.keyboard.type('unreachable-step');
      await pick(page, 'unreachable-step');
      const frame = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
      await frame.getByText('As it should be').waitFor();
    },
    after: closeAll,
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

const withoutTrust = {
  name: 'without-trust',
  title: 'findings and readings are there in a folder that is not trusted, with several folders open',
  async show(page) {
    await page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).first().waitFor();
    await openFile(page, 'lamp-dim.procedure.yaml');
    await page.locator('.monaco-editor .squiggly-error').first().waitFor({ state: 'attached' });
    await page.locator('.view-line', { hasText: 'circuit:' }).first().waitFor();
  },
};

/** Each opens a workbench of its own. */
export const sessions = [
  { name: 'light', theme: 'Default Light Modern', shots },
  {
    name: 'dark',
    theme: 'Default Dark Modern',
    shots: only('walkthrough', 'procedure', 'findings', 'preview', 'values', 'coverage', 'coverage-walks'),
  },
  {
    name: 'contrast',
    theme: 'Default High Contrast',
    shots: only('findings', 'preview', 'values', 'coverage', 'coverage-walks'),
  },
  {
    name: 'restricted',
    theme: 'Default Light Modern',
    trusting: false,
    severalRoots: true,
    shots: [withoutTrust],
  },
];

function only(...names) {
  return shots.filter(({ name }) => names.includes(name));
}

/** The colours come some time after the text; a page without them has one class of token. */
async function coloured(page) {
  await page.waitForFunction(
    () => new Set([...document.querySelectorAll('.view-line span span')].map(span => span.className)).size > 2,
  );
}

/** The language status turns while the checker is at work. */
async function idle(page) {
  const item = page.locator('#status\\.languageStatus');
  await item.waitFor();
  await item.locator('.codicon-loading').waitFor({ state: 'detached' });
}
