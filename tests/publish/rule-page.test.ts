import { describe, expect, it } from 'vitest';
import { ruleIndex, rulePage } from '../../server/src/publish/rule-page.ts';
import { rules } from '../../server/src/rules/index.ts';

describe('the page of each rule', () => {
  for (const rule of rules) {
    it(rule.id, () => {
      const page = rulePage(rule);
      expect(page.startsWith(`# ${rule.title}\n\n\`${rule.id}\``)).toBe(true);
      expect(page).toContain(rule.explanation.trim());
      // The marks are for the tests; a reader gets the message alone.
      expect(page).not.toMatch(/^#.*(error|warning|information|hint) [a-z-]+: |\[fix\]$|\$0/m);
      expect(page.match(/^```/gm)).toHaveLength(6);
    });
  }

  it('shows what the gallery shows, where it shows the rule', () => {
    const exhibit = '```diff\n-minutes: 2\n+minutes:\n```';
    const [rule] = rules;
    expect(rulePage(rule!, exhibit)).toContain(
      `This is \`examples/broken/${rule!.id}\` of the gallery.\n\n${exhibit}\n`,
    );
    expect(rulePage(rule!)).not.toContain('gallery');
  });
});

describe('the first page of the manual', () => {
  it('leads to the page of each rule, once', () => {
    const links = [...ruleIndex(rules).matchAll(/^- \[`([a-z-]+)`\]\(\1\.md\), (an? \w+|for information): ./gm)];
    expect(links.map(([, id]) => id).sort()).toEqual(rules.map(({ id }) => id).sort());
  });
});
