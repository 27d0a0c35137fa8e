import { describe, expect, it } from 'vitest';
import { rules } from '../../server/src/rules/index.ts';
import { checkFile, checkText } from '../../server/src/rules/run.ts';
import { parseFixture } from '../support/fixture.ts';
import { viewsOf } from '../support/workspace.ts';

describe('what the text of a file tells before its circuit is looked at', () => {
  it.each(rules.map(({ id, bad }) => [id, bad]))('is some of all its findings and nothing else: %s', (_, bad) => {
    const { files } = parseFixture(bad);
    const viewOf = viewsOf(files.map(({ uri, text }) => [uri, text] as const));
    for (const { uri } of files) {
      const view = viewOf(uri);
      if (!view) continue;
      const all = checkFile(view).map(finding => JSON.stringify([finding.rule, finding.message, finding.place.span]));
      const first = checkText(view).map(finding => JSON.stringify([finding.rule, finding.message, finding.place.span]));
      expect(all).toEqual(expect.arrayContaining(first));
    }
  });
});
