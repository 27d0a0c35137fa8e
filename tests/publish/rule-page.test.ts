import { describe, expect, it } from 'vitest';
import { rulePage } from '../../server/src/publish/rule-page.ts';
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
});
