import axe from 'axe-core';

/** What the Web Content Accessibility Guidelines 2.2 of the W3C ask for, as far as a program can tell; and good practice beside them. */
const standards = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Throws with what in a frame keeps people out who do not see, or see little: names, roles, order, contrast, sizes of targets. */
export async function accessible(frame) {
  await frame.evaluate(axe.source);
  const violations = await frame.evaluate(async tags => {
    const found = await globalThis.axe.run(document, { runOnly: tags, resultTypes: ['violations'] });
    return found.violations.flatMap(({ id, help, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${help}\n    ${html.slice(0, 160)}\n    ${failureSummary}`),
    );
  }, standards);
  if (violations.length > 0)
    throw new Error(`${violations.length} places keep somebody out:\n${violations.slice(0, 12).join('\n')}`);
}
