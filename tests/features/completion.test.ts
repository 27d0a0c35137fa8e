import { describe, expect, it } from 'vitest';
import type { Candidate } from '../../server/src/features/completion/candidate.ts';
import { completion } from '../../server/src/features/completion/completion.ts';
import { lampProcedure, lampSamples, lampSystem, type Scene, scene, windows } from './support.ts';

const files = {
  procedure: ['lamp-dark.procedure.yaml', lampProcedure],
  system: ['lamp.system.yaml', lampSystem],
  samples: ['lamp-dark.samples.yaml', lampSamples],
} as const;

/** The lamp files, with the first `from` of one of them replaced by `to`, which holds the cursor. */
function edited(file: keyof typeof files, from: string, to: string, change = (text: string) => text): Scene {
  const [name, text] = files[file];
  if (!text.includes(from)) throw new Error(`${name} holds no ${from}`);
  const all = Object.fromEntries(Object.values(files).map(([other, content]) => [other, change(content)]));
  return scene({ ...all, [name]: change(text.replace(from, () => to)) });
}

function offered(at: Scene): Candidate[] {
  return completion(at.workspace, at.view, at.offset);
}

function labels(at: Scene): string[] {
  return offered(at).map(candidate => candidate.label);
}

/** The text after the candidate of that label was taken. */
function taken(at: Scene, label: string): string {
  const candidate = offered(at).find(one => one.label === label);
  expect(candidate, `no ${label} among ${labels(at).join(', ')}`).toBeDefined();
  const { text } = at.view.tree;
  const { insert, replace } = candidate!;
  const begin = text.lastIndexOf('\n', replace.start - 1) + 1;
  const end = text.indexOf('\n', replace.end);
  return text.slice(begin, replace.start) + insert + text.slice(replace.end, end < 0 ? text.length : end);
}

describe('a word that is written out', () => {
  it('needs no list that holds only itself', () => {
    expect(labels(edited('procedure', 'measure: voltage', 'measure: voltage drop$0'))).toEqual([]);
  });

  it('still brings a list where it may be the beginning of another', () => {
    expect(labels(edited('procedure', 'measure: voltage', 'measure: voltage$0'))).toContain('voltage drop');
  });
});

describe('completion of keys', () => {
  it('offers what a step does not have yet, on an empty line', () => {
    const at = edited(
      'procedure',
      '    title: Resistance of the lamp\n',
      '    title: Resistance of the lamp\n    $0\n',
    );
    const found = labels(at);
    expect(found).toEqual(expect.arrayContaining(['minutes', 'needs', 'connect', 'specification']));
    for (const there of ['title', 'set', 'measure', 'then', 'expect', 'inspect']) expect(found).not.toContain(there);
  });

  it('offers the ways to begin a step that has no action yet', () => {
    const found = labels(edited('procedure', 'endings:\n', '  fresh:\n    $0\nendings:\n'));
    expect(found).toEqual(
      expect.arrayContaining(['inspect', 'operate', 'measure', 'read', 'record', 'ask', 'do', 'title']),
    );
  });

  it('replaces a half-typed key, and writes the colon and a value to fill in', () => {
    const at = edited('procedure', '    title: Resistance of the lamp\n', '    title: x\n    minu$0\n');
    // biome-ignore lint/suspicious/noTemplateCurlyInString: this is a snippet.
    expect(taken(at, 'minutes')).toBe('    minutes: ${1:5}');
  });

  it('leaves the value alone where the key has its colon', () => {
    expect(taken(edited('procedure', '    title: Lamp in', '    ti$0tle: Lamp in'), 'title')).toBe(
      '    title: Lamp in the scan data',
    );
  });

  it('offers names where the keys are names, also in brackets', () => {
    const at = edited('procedure', 'set: { S1: open }', 'set: { S1: open, $0 }');
    expect(labels(at)).toEqual(['key', 'ambient']);
    expect(taken(at, 'key')).toBe('    set: { S1: open, key: $0 }');
  });

  it('offers the keys of `then` that fit the step', () => {
    expect(labels(edited('procedure', '      within: ohms\n', '      $0\n'))).toEqual(
      expect.arrayContaining(['within', 'below', 'above']),
    );
    const reading = labels(edited('procedure', '{ within: ok, otherwise: mend-plug }', '{ within: ok, $0 }'));
    expect(reading).toEqual(expect.arrayContaining(['dark', 'lit', 'otherwise']));
    expect(reading).not.toContain('within');
  });

  it('offers whole steps by their verb, one for each', () => {
    const templates = offered(edited('procedure', 'endings:\n', '  $0\nendings:\n')).filter(
      one => one.kind === 'template',
    );
    expect(templates.length).toBeGreaterThanOrEqual(7);
    expect(templates.some(one => one.insert.includes('\n\tmeasure: '))).toBe(true);
  });

  it('offers parts by their kind, and a wire after a dash', () => {
    const parts = offered(edited('system', 'connectors:\n', '  $0\nconnectors:\n'));
    expect(parts.some(one => one.kind === 'template' && one.insert.includes('kind: relay'))).toBe(true);
    const wires = edited('system', 'specifications:\n', '  - $0\nspecifications:\n');
    expect(offered(wires).some(one => one.kind === 'template' && / to .*mm²/.test(one.insert))).toBe(true);
  });

  it('offers the sections of a file on an empty line at the margin', () => {
    const found = labels(edited('procedure', 'endings:\n', '$0\nendings:\n'));
    expect(found).toEqual(expect.arrayContaining(['meter', 'cautions', 'allow']));
    expect(found).not.toContain('steps');
  });

  it('begins an empty file', () => {
    expect(
      labels(scene({ 'new.procedure.yaml': '$0' }))
        .slice(0, 2)
        .sort(),
    ).toEqual(['format', 'procedure']);
  });
});

describe('completion of values', () => {
  it.each([
    ['confirm: look }', 'confirm: $0 }', ['look', 'volts', 'ohms', 'read-lamp']],
    ['all sound: volts', 'all sound: $0', ['volts', 'mend-plug', 'replace-lamp', 'ok']],
    ['key: run, S1', 'key: $0, S1', ['off', 'run']],
    ['S1: pressed }', 'S1: pr$0 }', ['open', 'pressed']],
    ['disconnect: [X1]', 'disconnect: [$0]', ['X1', 'E1', 'hose one']],
    ['expect: lit', 'expect: $0', ['dark', 'lit']],
    ['read: A1 lamp', 'read: $0', ['A1 lamp']],
    ['shows: [X1,', 'shows: [$0,', ['hose one chafed', 'W4', 'GND-1', 'W6 open', 'X1/1 high resistance']],
    ['lamp.system.yaml: all', 'lamp.system.yaml: $0', ['all', 'plain', 'relayed']],
    ['  lamp.system.yaml: all', '  $0', ['lamp.system.yaml']],
    ['measure: voltage', 'measure: $0', ['voltage', 'voltage drop', 'resistance', 'continuity', 'current']],
  ])('%s', (from, to, expected) => {
    expect(labels(edited('procedure', from, to))).toEqual(expect.arrayContaining(expected));
  });

  it('replaces names with blanks, dots and slashes as a whole', () => {
    expect(taken(edited('procedure', 'red: X1/1 (back-probe)', 'red: X1/$0'), 'X1/2')).toBe('    red: X1/2');
    expect(taken(edited('procedure', 'red: X1/1 (back-probe)', 'red: A1.$0'), 'A1.3')).toBe('    red: A1.3');
    expect(taken(edited('procedure', 'W4, hose one]', 'W4, hose o$0]'), 'hose one')).toBe(
      '    inspect: [X1, W4, hose one]',
    );
  });

  it('offers the sides of a plug behind a point', () => {
    const at = edited('procedure', 'red: X1/1 (E1 side)', 'red: X1/1 $0');
    expect(labels(at)).toEqual(['(back-probe)', '(S1 side)', '(E1 side)']);
    expect(taken(at, '(E1 side)')).toBe('    red: X1/1 (E1 side)');
    expect(taken(edited('procedure', 'red: X1/1 (E1 side)', 'red: X1/1 (E$0'), '(E1 side)')).toBe(
      '    red: X1/1 (E1 side)',
    );
  });

  it('offers units that fit behind a number', () => {
    const at = edited('procedure', 'limits: below 10 Ω', 'limits: below 10$0');
    expect(labels(at)).toEqual(expect.arrayContaining(['Ω', 'kΩ', 'mΩ']));
    expect(labels(at)).not.toContain('V');
    expect(taken(at, 'kΩ')).toBe('    limits: below 10 kΩ');
    expect(taken(edited('procedure', 'limits: below 10 Ω', 'limits: below 10 k$0'), 'kΩ')).toBe(
      '    limits: below 10 kΩ',
    );
  });

  it("offers the circuit's own range as a limit first", () => {
    const [first] = offered(edited('procedure', 'limits: 11.5 V .. 13 V', 'limits: $0'));
    expect(first.detail).toBe("the circuit's own range");
    // Computed by hand in around.test.ts.
    expect(first.insert).toBe('12.04 V .. 12.86 V');
  });

  it('shows how a value is written, and begins a map on the line', () => {
    const part = (text: string) => edited('system', 'connectors:\n', `  R9: ${text}\nconnectors:\n`);
    expect(labels(part('{ kind: fuse, rating: $0 }'))).toEqual(['10 A']);
    expect(labels(part('$0'))).toEqual(['{…}']);
    expect(taken(part('$0'), '{…}')).toBe('  R9: { kind: $1 }');
  });

  it('offers whole items only where an item begins', () => {
    const start = (text: string) => edited('procedure', 'tools: [multimeter]', `${text}\ntools: [multimeter]`);
    expect(labels(start('  - $0'))).toContain('start by code');
    expect(labels(start('  - { code: L02, $0 }'))).not.toContain('start by symptom');
  });

  it('follows the line of a wire', () => {
    const line = 'W3: SP1 to S1.1, 1 mm², 1 m, red';
    expect(labels(edited('system', line, 'W3: $0'))).toEqual(expect.arrayContaining(['SP1', 'G1.+', 'X1/1', 'GND-1']));
    expect(labels(edited('system', line, 'W3: SP1 $0'))).toEqual(['to']);
    expect(taken(edited('system', line, 'W3: SP1 to S1$0'), 'S1.1')).toBe('  - W3: SP1 to S1.1');
    expect(labels(edited('system', line, 'W3: SP1 to S1.1, $0'))).toEqual(
      expect.arrayContaining(['0.75 mm²', 'red', 'only']),
    );
    expect(taken(edited('system', line, 'W3: SP1 to S1.1, only $0'), 'relayed')).toBe(
      '  - W3: SP1 to S1.1, only relayed',
    );
  });

  it('writes the blank behind a colon, and the dash of a list', () => {
    expect(taken(edited('procedure', 'start: look', 'start:$0'), 'volts')).toBe('start: volts');
    expect(taken(edited('procedure', '    inspect: [X1, W4, hose one]', '    inspect:\n      $0'), 'W4')).toBe(
      '      - W4',
    );
  });

  it('offers the answers of a step and the endings in samples', () => {
    expect(labels(edited('samples', 'look: all sound', 'look: $0'))).toEqual(
      expect.arrayContaining(['plug loose', 'all sound']),
    );
    expect(labels(edited('samples', 'ends at: ok', 'ends at: $0'))).toEqual(
      expect.arrayContaining(['ok', 'mend-plug']),
    );
    expect(labels(edited('samples', 'variant: plain', 'variant: $0'))).toEqual(['plain', 'relayed']);
    expect(labels(edited('samples', 'starts from: L01', 'starts from: $0'))).toEqual(['lamp stays dark', 'L01']);
  });

  it('offers nothing in comments', () => {
    expect(labels(edited('procedure', 'start: look', 'start: look # v$0'))).toEqual([]);
  });

  it('finds the same with line breaks of Windows, and behind characters beyond the basic plane', () => {
    const wanted = labels(edited('procedure', 'confirm: look }', 'confirm: $0 }'));
    expect(labels(edited('procedure', 'confirm: look }', 'confirm: $0 }', windows))).toEqual(wanted);
    const title = (text: string) => text.replace('title: The lamp', 'title: 💡 Die Lampe für');
    expect(labels(edited('procedure', 'confirm: look }', 'confirm: $0 }', title))).toEqual(wanted);
  });

  it('offers something or nothing, but never fails, wherever the cursor is', () => {
    for (const [name, text] of Object.values(files)) {
      for (let at = 0; at <= text.length; at += 23) {
        const cut = scene({ 'lamp.system.yaml': lampSystem, [name]: `${text.slice(0, at)}$0` });
        expect(Array.isArray(offered(cut))).toBe(true);
      }
    }
  });
});
