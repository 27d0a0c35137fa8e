import { describe, expect, it } from 'vitest';
import { rules } from '../../server/src/rules/index.ts';
import { diagnostics } from '../support/check.ts';
import { parseFixture } from '../support/fixture.ts';

const shown = rules.filter(rule => rule.bad !== '');

it('shows an example of every mistake but a file of ten million characters', () => {
  expect(rules.filter(rule => rule.bad === '').map(rule => rule.id)).toEqual(['file-too-large']);
});

describe.each(shown.map(rule => [rule.id, rule] as const))('%s', (id, { bad, good, title, explanation, group }) => {
  it('finds in its bad example exactly what is marked there', () => {
    const marks = parseFixture(bad).files.flatMap(f => f.marks);
    expect(marks.map(m => m.rule)).toContain(id);
    diagnostics(bad);
  });

  it('leaves its good example alone, and so does every other rule', () => {
    expect(parseFixture(good).files.flatMap(f => f.marks)).toEqual([]);
    diagnostics(good);
  });

  it('explains itself to a reader who does not program', () => {
    expect(title).toMatch(/^[A-Z`].*[^.]$/);
    expect(explanation.trim().length, group).toBeGreaterThan(80);
  });
});
