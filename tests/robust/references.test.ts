/** Files that name files: missing, in a circle, outside the folders, too many. One clear message each, and an end. */
import { describe, expect, it } from 'vitest';
import { folder, lampFiles, survive } from './support.ts';

const procedure = (file: string) => `format: 1
procedure: p
applies to: { ${file}: all }
starts from: [{ symptom: dark }]
start: look
steps:
  look: { inspect: [W1], then: { found: ok, sound: on } }
endings:
  ok: { no fault: All is well }
  on: { continue in: other.procedure.yaml }
`;

/** Rule and message of every finding, by file. */
function told(files: Record<string, string>): Record<string, string[]> {
  const found = survive(new Map(Object.entries(files).map(([name, text]) => [folder + name, text])));
  const byFile: Record<string, string[]> = {};
  for (const { rule, message, place } of found) {
    const name = place.uri.slice(folder.length);
    byFile[name] = [...(byFile[name] ?? []), `${rule}: ${message}`];
  }
  return byFile;
}

describe('a reference', () => {
  it('to a file that is not there is told once, where it stands', () => {
    expect(told({ 'p.procedure.yaml': procedure('gone.system.yaml') })).toEqual({
      'p.procedure.yaml': [
        'missing-file: There is no file `gone.system.yaml`',
        'missing-file: There is no file `other.procedure.yaml`',
      ],
    });
    const walks =
      'format: 1\nsamples of: gone.procedure.yaml\nwalks:\n  a: { readings: { look: sound }, ends at: on }\n';
    expect(told({ 's.samples.yaml': walks })).toEqual({
      's.samples.yaml': ['missing-file: There is no file `gone.procedure.yaml`'],
    });
  });

  it.each(['https://example.org/a.system.yaml', 'file:///etc/a.system.yaml', 'data:,a.system.yaml'])(
    'to another place is told and never followed: %s',
    file => {
      const found = told({ 'p.procedure.yaml': procedure(`"${file}"`), 'other.procedure.yaml': '' });
      expect(found['p.procedure.yaml']).toHaveLength(1);
      expect(found['p.procedure.yaml']![0]).toMatch(/^(outside-workspace|missing-file): /);
    },
  );

  it('from a file to itself, or round in a circle of any length, is told in each of them', () => {
    const includes = (file: string) => `format: 1\nsystem: s\nincludes: [${file}]\n`;
    for (const length of [1, 2, 5, 100]) {
      const name = (i: number) => `s${i % length}.system.yaml`;
      const circle = Object.fromEntries(Array.from({ length }, (_, i) => [name(i), includes(name(i + 1))]));
      const found = told(circle);
      expect(Object.keys(found)).toHaveLength(length);
      for (const messages of Object.values(found)) {
        expect(messages).toHaveLength(1);
        expect(messages[0]).toMatch(/^cyclic-include: /);
      }
    }
  });

  it('from every file to every other one ends, too', () => {
    const names = Array.from({ length: 14 }, (_, i) => `s${i}.system.yaml`);
    const text = (own: string) =>
      `format: 1\nsystem: s\nincludes: [${names.filter(name => name !== own).join(', ')}]\n`;
    const found = told(Object.fromEntries(names.map(name => [name, text(name)])));
    expect(Object.keys(found)).toHaveLength(names.length);
    for (const messages of Object.values(found).flat()) expect(messages).toMatch(/^cyclic-include: /);
  });

  it('between two procedures that go on in each other is no mistake', () => {
    const [system] = lampFiles.values();
    const goesOn = (file: string) => procedure('lamp.system.yaml').replace('other.procedure.yaml', file);
    expect(
      told({
        'lamp.system.yaml': system!,
        'a.procedure.yaml': goesOn('b.procedure.yaml'),
        'b.procedure.yaml': goesOn('a.procedure.yaml'),
      })['a.procedure.yaml'],
    ).toBeUndefined();
  });

  it('may be one of a long chain', () => {
    const length = 100;
    const chain = Array.from({ length }, (_, i): [string, string] => [
      `s${i}.system.yaml`,
      `format: 1\nsystem: s${i}\n${i + 1 < length ? `includes: [s${i + 1}.system.yaml]\n` : ''}parts:\n  R${i}: { kind: resistor, resistance: 1 Ω }\n`,
    ]);
    expect(Object.keys(told(Object.fromEntries(chain))).length).toBeLessThanOrEqual(length);
  }, 60_000);
});
