/** The broken copies of the examples: each shows its rule and nothing else but what walks of faults show as well, and the files in the tree are those that are made here. */
import * as fs from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { ruleById, rules } from '../server/src/rules/index.ts';
import { breakages, exempt } from './gallery/edits.ts';
import { exhibits, filesOf } from './gallery/gallery.ts';

const read = (pattern: string) =>
  new Map(globSync(pattern, { cwd: 'examples' }).map(file => [file, fs.readFileSync(`examples/${file}`, 'utf8')]));

const isProved = (rule: string) => ruleById.get(rule)?.group === 'proof';

describe('the gallery', () => {
  const all = exhibits(read('*/*.yaml'));

  it('has a copy for each rule, or a reason for none', () => {
    const shown = [...breakages.map(({ rule }) => rule), ...Object.keys(exempt)];
    expect(shown.sort()).toEqual(rules.map(({ id }) => id).sort());
  });

  it.each(breakages)('$rule: $what', ({ rule }) => {
    const { report } = all.find(({ breakage }) => breakage.rule === rule)!;
    const found = report.files.flatMap(file => file.findings).map(finding => finding.rule);
    expect(found.filter(other => other === rule || !isProved(other))).toEqual([rule]);
    if (!isProved(rule)) expect(found).toEqual([rule]);
  });

  it('stands in the tree as `npm run gallery` writes it', () => {
    const files = filesOf(all);
    const stored = read('broken/**');
    expect([...stored.keys()].sort()).toEqual([...files.keys()].sort());
    for (const [file, text] of files) expect(stored.get(file), file).toBe(text);
  });

  it('stays small', () => {
    const bytes = [...filesOf(all).values()].reduce((sum, text) => sum + Buffer.byteLength(text), 0);
    expect(bytes).toBeLessThan(3.5e6);
  });
});
