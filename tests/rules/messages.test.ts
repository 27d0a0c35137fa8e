import { describe, expect, it } from 'vitest';
import { ruleById, rules } from '../../server/src/rules/index.ts';
import { findingsIn } from '../support/check.ts';
import { parseFixture } from '../support/fixture.ts';
import { allow } from './fixtures/allow.ts';
import { badInput } from './fixtures/bad-input.ts';
import { circuit } from './fixtures/circuit.ts';
import { conditions } from './fixtures/conditions.ts';
import { limits } from './fixtures/limits.ts';
import { names } from './fixtures/names.ts';
import { parts } from './fixtures/parts.ts';
import { proof } from './fixtures/proof.ts';
import { safety } from './fixtures/safety.ts';
import { samples } from './fixtures/samples.ts';
import { seen } from './fixtures/seen.ts';
import { structure } from './fixtures/structure.ts';

const fixtures = [
  ...rules.flatMap(rule => (rule.bad === '' ? [] : [rule.bad])),
  ...[names, seen, structure, limits, circuit, conditions, parts, badInput, safety, proof, samples, allow].flatMap(
    group => Object.values(group),
  ),
];

const found = fixtures
  .flatMap(fixture => findingsIn(parseFixture(fixture)).flat())
  .map(({ finding }) => finding)
  .sort((a, b) => (a.rule === b.rule ? 0 : a.rule < b.rule ? -1 : 1));

/** `severity rule: message`, then why, what to do, other places and quick fixes, as they are shown. */
const rendered = [
  ...new Set(
    found.map(({ severity, rule, message, detail, help, related = [], fixes = [] }) =>
      [
        `${severity} ${rule}: ${message}`,
        ...(detail ? [`    ${detail}`] : []),
        ...(help ? [`    help: ${help}`] : []),
        ...related.map(r => `    see: ${r.message}`),
        ...fixes.map(f => `    fix${f.preferred ? '!' : ''}: ${f.title}`),
      ].join('\n'),
    ),
  ),
];

describe('all messages of all fixtures', () => {
  it('stand in the golden file, which is read in review', async () => {
    await expect(`${rendered.join('\n\n')}\n`).toMatchFileSnapshot('../golden/messages.txt');
  });

  it.each(found.map(f => [`${f.rule}: ${f.message}`, f] as const))('%s', (_name, { rule, message, detail, help }) => {
    expect(ruleById.has(rule)).toBe(true);
    expect(message.length).toBeLessThanOrEqual(90);
    expect(message).toMatch(/^[`A-Z0-9].*[^.]$/);
    expect(detail ?? 'A sentence.').toMatch(/[.?)`]$/);
    expect(help ?? 'Do it.').toMatch(/^[A-Z].*[.?]$/s);
    expect(`${message} ${detail ?? ''} ${help ?? ''}`).not.toMatch(
      /\b(NaN|undefined|null|please|illegal|invalid)\b|\[object|\d\.\d{7}/i,
    );
  });
});
