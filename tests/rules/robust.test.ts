import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rules } from '../../server/src/rules/index.ts';
import { findingsIn } from '../support/check.ts';
import { parseFixture } from '../support/fixture.ts';
import { names } from './fixtures/names.ts';

const texts = [...rules.flatMap(rule => [rule.bad, rule.good]), ...Object.values(names)].filter(text => text !== '');

// How long it takes says nothing; the limit is there to end it.
const patienceMs = 120_000;

it('finds something or nothing in a half-typed file, and never breaks', { timeout: patienceMs }, () => {
  const cut = fc.constantFrom(...texts).chain(text => {
    const fixture = parseFixture(text);
    const [first] = fixture.files;
    return fc.record({ fixture: fc.constant(fixture), at: fc.nat(first!.text.length), drop: fc.nat(30) });
  });
  fc.assert(
    fc.property(cut, ({ fixture, at, drop }) => {
      const [first, ...rest] = fixture.files;
      const text = first!.text.slice(0, at) + (drop === 0 ? '' : first!.text.slice(at + drop));
      for (const { finding, start, end } of findingsIn({ ...fixture, files: [{ ...first!, text }, ...rest] }).flat()) {
        expect(finding.message.length).toBeLessThanOrEqual(90);
        expect(start).toBeLessThanOrEqual(end);
      }
    }),
    { numRuns: 400 },
  );
});
