import { describe, expect, it } from 'vitest';
import { checkFile } from '../../server/src/schema/check.ts';
import { parse } from '../../server/src/syntax/parse.ts';
import { kinds, problemsIn, shown } from './support.ts';

describe.each(kinds)('a half-typed %s file', kind => {
  const text = shown[kind];

  it('is checked wherever it ends, and told about in short messages', () => {
    for (let end = 0; end < text.length; end += 7) {
      for (const { message, span } of problemsIn(kind, text.slice(0, end))) {
        expect(message.length, message).toBeLessThanOrEqual(90);
        expect(span.end).toBeLessThanOrEqual(span.unit.text.length);
      }
    }
  });

  it('has no mistake in what stands before its last entry', () => {
    const lines = text.split('\n');
    for (let count = 3; count < lines.length; count++) {
      const typed = parse(`${lines.slice(0, count).join('\n')}\n`);
      const last = typed.units.at(-1)!.unit;
      const first = typed.units.find(({ unit }) => unit.text.includes(':'))!.unit;
      const early = checkFile(kind, typed).filter(({ span }) => span.unit !== last && span.unit !== first);
      // What the file as a whole still lacks is said at its first key.
      expect(early.map(({ message }) => message)).toEqual([]);
    }
  });
});

describe('after an edit', () => {
  const head = 'format: 1\nprocedure: x\nsteps:\n';
  const before = parse(`${head}  a: { ask: Warm?, thn: b }\n  b: { ask: Cold? }\n`);

  it('what was said about untouched entries is kept, not found again', () => {
    const [first, second] = checkFile('procedure', before);
    const after = parse(`${head}  a: { ask: Warm?, thn: b }\n  b: { ask: Cold?, then: a }\n`, before);
    const now = checkFile('procedure', after);
    expect(second?.message).toBe('`b` has no `then`');
    expect(now).toHaveLength(1);
    expect(now[0]).toBe(first);
  });
});
