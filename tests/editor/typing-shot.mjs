/** A procedure is typed at the keyboard, with whatever the editor does meanwhile: it must stand there as it was meant. */
import { command, openFile } from './host/ui.mjs';

const text = `format: 1
procedure: typed
title: The work lamp stays dark
applies to:
  lamp.system.yaml: all
starts from:
  - symptom: lamp stays dark
start: look
steps:
  look:
    title: Look at the lamp
    inspect: [W4, R2]
    then:
      damage found: mended
      all sound: lamp-voltage
  lamp-voltage:
    set: { key: run }
    measure: voltage
    red: R2.1
    limits: 7.8 V .. 9.0 V
`;

export const typingShot = {
  name: 'typing',
  title: 'a procedure that is typed stands as it was typed',
  async show(page) {
    await openFile(page, 'lamp-dark.procedure.yaml');
    await page.locator('.monaco-editor .view-line').first().click();
    await page.keyboard.press('Control+A');
    await page.keyboard.press('Delete');
    await type(page, text.trimEnd().split('\n'));
    await page.locator('.codelens-decoration:visible', { hasText: 'leads here' }).first().waitFor();
    const shown = await textShown(page);
    if (shown !== text.trimEnd()) throw new Error(`It came out as\n${shown}`);
  },
  async after(page) {
    await page.keyboard.press('Escape');
    await command(page, 'File: Revert File');
    await command(page, 'View: Close All Editors');
  },
};

/** The editor goes a level in by itself; a person goes out with Shift+Tab. Each line ends with Enter, whatever is offered then. */
async function type(page, lines) {
  let column = 0;
  for (const [i, line] of lines.entries()) {
    const indent = line.length - line.trimStart().length;
    for (let at = column; at > indent; at -= 2) await page.keyboard.press('Shift+Tab');
    await (written[line.trim()] ?? letters)(page, line.trimStart());
    if (i < lines.length - 1) await page.keyboard.press('Enter');
    column = line.endsWith(':') ? indent + 2 : indent;
  }
}

/** Lines that are not typed straight to their end. */
const written = {
  // A name that is written out is still offered here, and Enter must not be taken for it.
  async 'red: R2.1'(page) {
    await letters(page, 'red: R2.');
    await offered(page, 'R2.1');
    await letters(page, '1');
  },
  // Half a word, of which Tab makes the whole one.
  async 'measure: voltage'(page) {
    await letters(page, 'measure: volta');
    await offered(page, 'voltage');
    await page.keyboard.press('Tab');
    await page.locator('.suggest-widget.visible').waitFor({ state: 'hidden' });
  },
};

function letters(page, text) {
  return page.keyboard.type(text, { delay: 20 });
}

async function offered(page, label) {
  await page.locator('.suggest-widget.visible .monaco-list-row', { hasText: label }).first().waitFor();
}

/** The lines in the order in which they stand; the editor draws blanks as hard ones, and adds its own remarks. */
function textShown(page) {
  return page.evaluate(() => {
    const lines = [...document.querySelectorAll('.monaco-editor .view-lines .view-line')];
    const top = line => Number.parseFloat(line.style.top);
    const written = line =>
      [...line.querySelectorAll('span > span')]
        .filter(span => !/dyn-rule|ced-/.test(span.className))
        .map(span => span.textContent)
        .join('');
    return lines
      .sort((a, b) => top(a) - top(b))
      .map(line => written(line).replaceAll('\u00a0', ' ').trimEnd())
      .join('\n');
  });
}
