import { describe, expect, it } from 'vitest';
import { checkFile } from '../../server/src/schema/check.ts';
import type { FileKind } from '../../server/src/schema/root.ts';
import { parse } from '../../server/src/syntax/parse.ts';
import { problemsIn, tokenOf } from './support.ts';

/** A mistake, and all that is said about it: `id at token: message`. */
interface Case {
  readonly text: string;
  readonly said: readonly string[];
}

const system: readonly Case[] = [
  // Keys
  {
    text: 'parts: { F1: { kind: fuse, ratng: 10 A } }',
    said: ['unknown-key at ratng: `ratng` is not a key of a fuse'],
  },
  {
    text: 'parts: { F1: { kind: fuse, Rating: 10 A } }',
    said: ['unknown-key at Rating: `Rating` is not a key of a fuse'],
  },
  {
    text: 'parts: { K1: { kind: relay, coil: 85 Ω, pullin: 8 V } }',
    said: ['unknown-key at pullin: `pullin` is not a key of a relay'],
  },
  {
    text: 'parts: { K1: { kind: relay, coil: 85 Ω, pull_in: 8 V } }',
    said: ['unknown-key at pull_in: `pull_in` is not a key of a relay'],
  },
  { text: 'parts: { F1: { kind: fuse, amps: 10 A } }', said: ['unknown-key at amps: `amps` is not a key of a fuse'] },
  {
    text: 'parts: { F1: { kind: fuse, rating:10 A } }',
    said: ['unknown-key at rating:10 A: `rating:10 A` is not a key of a fuse'],
  },
  {
    text: 'parts: { V2: { kind: led, rating: 1 A } }',
    said: ['unknown-key at rating: `rating` is not a key of an LED'],
  },
  { text: 'partz: { F1: { kind: nonsense } }', said: ['unknown-key at partz: `partz` is not a key of a system file'] },
  { text: 'parts: { F1: { type: fuse, rating: 10 A } }', said: ['unknown-key at type: `type` is not a key of a part'] },
  {
    text: 'grounds: { GND-4: { title: Frame, left rear } }',
    said: ['unknown-key at left rear: `left rear` is not a key of a ground'],
  },
  { text: 'parts: { F1: { kind: fuse } }', said: ['missing-key at F1: `F1` has no `rating`'] },
  { text: 'parts: { F1: { rating: 10 A } }', said: ['missing-key at F1: `F1` has no `kind`'] },
  { text: 'parts: { F1: {} }', said: ['missing-key at F1: `F1` has no `kind`'] },
  {
    text: 'parts: { A1: { kind: module, pins: { 1: { pull-up: { to: 5 V } } } } }',
    said: ['missing-key at pull-up: `pull-up` has no `through`'],
  },
  { text: 'conditions: { t: { title: Oil } }', said: ['missing-key at t: `t` has no `states` or `from`'] },
  {
    text: 'conditions: { t: { states: [a], from: 1 °C } }',
    said: ['conflicting-keys at from: `from` cannot stand beside `states`'],
  },
  {
    text: 'parts: { K1: { kind: relay, coil: 85 Ω, suppression: { resistor: 1 kΩ, diode: 85 to 86 } } }',
    said: ['conflicting-keys at diode: `diode` cannot stand beside `resistor`'],
  },
  { text: 'faults: { S1 open: {} }', said: ['missing-key at S1 open: `S1 open` has no entry yet'] },
  // By variant
  { text: 'parts: { F1: { kind: fuse, rating: 10 A, by variant: { a: { rating: 15 A } } } }', said: [] },
  {
    text: 'parts: { F1: { kind: fuse, rating: 10 A, by variant: { a: { kind: breaker } } } }',
    said: ['unknown-key at kind: `kind` cannot differ by variant'],
  },
  {
    text: 'parts: { F1: { kind: fuse, rating: 10 A, by variant: { a: { coil: 85 Ω } } } }',
    said: ['unknown-key at coil: `coil` is not a key of a fuse'],
  },
  // Values
  {
    text: 'parts: { F1: { kind: fues, rating: 10 A, coil: 1 } }',
    said: ['unknown-kind at fues: `fues` is not a kind of part'],
  },
  { text: 'parts: { E1: { kind: bulb, power: 21 W } }', said: ['unknown-kind at bulb: `bulb` is not a kind of part'] },
  {
    text: 'parts: { E1: { kind: whatever, power: 21 W } }',
    said: ['unknown-kind at whatever: `whatever` is not a kind of part'],
  },
  {
    text: 'parts: { Y1: { kind: coil, resistance: 9 Ω, hazard: [hot, sharp] } }',
    said: ['unknown-value at sharp: `sharp` is not a kind of hazard'],
  },
  {
    text: 'parts: { A1: { kind: module, pins: { 1: { output: lowside } } } }',
    said: ['unknown-value at lowside: `lowside` is not a value of `output`'],
  },
  {
    text: 'parts: { A1: { kind: module, pins: { 1: {} }, rules: [ { when: { key: run }, do: { 1: open } } ] } }',
    said: ['unknown-value at open: `open` is not a value of `1`'],
  },
  {
    text: 'parts: { F1: { kind: fuse, rating: [10 A] } }',
    said: ['wrong-shape at rating: `rating` takes text, not a list'],
  },
  { text: 'parts: { F1: { kind: fuse, rating: } }', said: ['empty-value at rating: `rating` has no value yet'] },
  { text: 'parts: { F1: 10 A }', said: ['wrong-shape at 10 A: `F1` takes keys with values, not text'] },
  { text: 'parts: { F1: }', said: ['empty-value at F1: `F1` has no value yet'] },
  { text: 'parts:\n  F1:\n    kind', said: ['wrong-shape at kind: `kind` has no colon yet'] },
  { text: 'parts:', said: ['empty-value at parts: `parts` has no value yet'] },
  { text: 'parts: [ F1 ]', said: ['wrong-shape at parts: `parts` takes keys with values, not a list'] },
  {
    text: 'parts: { Q1: { kind: transistor, terminals: [B, C] } }',
    said: ['wrong-count at terminals: `terminals` takes 3 entries, not 2'],
  },
  { text: 'conditions: { key: [] }', said: ['wrong-count at key: `key` takes at least 1 entry, not 0'] },
  { text: 'grounds: { GND-4: }\nsplices: { SP1: }', said: [] },
  { text: 'wires:\n  - W1', said: ['wrong-shape at W1: This wire takes a name with its text, not text alone'] },
  { text: 'wires:\n  -', said: ['empty-value at : This wire is still empty'] },
  { text: 'wires:\n  - W1: a to b\n    W2: b to c', said: ['conflicting-keys at W2: `W2` cannot stand beside `W1`'] },
  { text: 'wires: { W1: a to b }', said: ['wrong-shape at wires: `wires` takes a list, not keys with values'] },
  {
    text: 'allow: { unused-part: { in: [H1] } }',
    said: ['missing-key at unused-part: `unused-part` has no `because`'],
  },
];

const procedure: readonly Case[] = [
  {
    text: 'steps: { a: { ask: Warm?, do: Wait, then: b } }',
    said: ['more-than-one-action at do: `do` is a second action beside `ask`'],
  },
  {
    text: 'steps: { a: { ask: Warm?, measure: voltage, red: A1.1, then: b } }',
    said: ['more-than-one-action at measure: `measure` is a second action beside `ask`'],
  },
  { text: 'steps: { a: { title: Warm, then: b } }', said: ['no-action at a: `a` has no action'] },
  {
    text: 'steps: { a: { mesure: voltage, red: A1.1, then: b } }',
    said: ['unknown-key at mesure: `mesure` is not a key of a `measure` step'],
  },
  {
    text: 'steps: { a: { frobnicate: voltage, then: b } }',
    said: ['unknown-key at frobnicate: `frobnicate` is not a key of a step'],
  },
  {
    text: 'steps: { a: { measure: volts, then: b } }',
    said: ['unknown-value at volts: `volts` is not a value of `measure`'],
  },
  { text: 'steps: { a: { measure: , then: b } }', said: ['empty-value at measure: `measure` has no value yet'] },
  { text: 'steps: { a: { measure: voltage } }', said: ['missing-key at a: `a` has no `then`'] },
  {
    text: 'steps: { a: { ask: Warm?, red: A1.1, then: b } }',
    said: ['unknown-key at red: `red` is not a key of an `ask` step'],
  },
  {
    text: 'steps: { a: { do: Wait, then: { go: { to: b } } } }',
    said: ['unknown-key at to: `to` is not a key of an answer'],
  },
  {
    text: 'steps: { a: { do: Wait, then: [b] } }',
    said: ['wrong-shape at then: `then` takes text or keys with values, not a list'],
  },
  {
    text: 'steps: { a: { measure: voltage, limits: { from: 1 V }, then: b } }',
    said: ['wrong-shape at limits: `limits` takes text, not keys with values'],
  },
  { text: 'steps: { a: { measure: voltage, then: b, by variant: { x: { limits: 1 V .. 2 V } } } }', said: [] },
  {
    text: 'steps: { a: { measure: voltage, then: b, by variant: { x: { ask: Warm? } } } }',
    said: ['unknown-key at ask: `ask` is not a key of a `measure` step'],
  },
  { text: 'endings: { a: { confirm: b } }', said: ['no-action at a: `a` has no action'] },
  {
    text: 'endings: { a: { replace: [S6], mend: [W1] } }',
    said: ['more-than-one-action at mend: `mend` is a second action beside `replace`'],
  },
  {
    text: 'endings: { a: { no fault: Fine, confirm: b } }',
    said: ['unknown-key at confirm: `confirm` is not a key of a `no fault` ending'],
  },
  {
    text: 'endings: { a: { repair: [W1] } }',
    said: ['unknown-key at repair: `repair` is not a key of a `mend` ending'],
  },
  { text: 'cautions: [ Hot ]', said: ['wrong-shape at Hot: This caution takes keys with values, not text'] },
  { text: 'cautions: [ { warn: Hot } ]', said: ['unknown-key at warn: `warn` is not a key of a warning'] },
  {
    text: 'steps: { a: { operate: Drive, then: { stops: { go to: b, when: { Y1: off, A1 keypad: [on, idle] } } } } }',
    said: [],
  },
  {
    text: 'steps: { a: { operate: Drive, then: { stops: { go to: b, when: [Y1, Y2] } } } }',
    said: [
      'wrong-shape at Y1: This test of what the machine does takes keys with values, not text',
      'wrong-shape at Y2: This test of what the machine does takes keys with values, not text',
    ],
  },
  {
    text: 'steps: { a: { measure: voltage, then: { below 1 V: { go to: b, when: { Y1: off } } } } }',
    said: ['unknown-key at when: `when` stands only at an answer to `inspect`, `operate` or `ask`'],
  },
  {
    text: 'steps: { a: { operate: Drive, then: { stops: { go to: b, wen: { Y1: off } } } } }',
    said: ['unknown-key at wen: `wen` is not a key of an answer'],
  },
  {
    text: 'starts from: [ { symptom: stops, set: { key: run }, when: { Y1: off }, nature: sporadic, shows: W1 } ]',
    said: ['unknown-value at sporadic: `sporadic` is not a value of `nature`'],
  },
  {
    text: 'endings: { a: { mend: [W1], suspect: [A1] } }',
    said: ['unknown-key at suspect: `suspect` is not a key of a `mend` ending'],
  },
  { text: 'endings: { a: { refer: Inside, suspect: A1 } }', said: [] },
  { text: 'starts from: [ { start: a } ]', said: ['missing-key at start: This start has no `symptom` or `code`'] },
  { text: 'applies to: {}', said: ['missing-key at applies to: `applies to` has no entry yet'] },
];

describe.each([
  ['system', 'format: 1\nsystem: x\n', system],
  ['procedure', 'format: 1\nprocedure: x\n', procedure],
] as const)('a mistake in a %s file is told once, at one token', (kind: FileKind, head, cases) => {
  it.each(cases)('$text', ({ text, said }) => {
    const problems = problemsIn(kind, head + text);
    expect(problems.map(problem => `${problem.id} at ${tokenOf(problem)}: ${problem.message}`)).toEqual(said);
  });
});

describe('the head of a file', () => {
  it.each<Case>([
    { text: '', said: ['empty-value at : This system file is still empty'] },
    { text: 'system: x', said: ['missing-key at system: This system file has no `format`'] },
    { text: 'format: 1', said: ['missing-key at format: This system file has no `system`'] },
    { text: 'format: one\nsystem: x', said: ['wrong-format-version at one: There is no `format` `one`'] },
    {
      text: 'format: 2\nsystem: x\nnew: key',
      said: ['wrong-format-version at 2: This release reads `format` up to 1, and the file says `2`'],
    },
    { text: '- format: 1', said: ['wrong-shape at format: This system file takes keys with values, not a list'] },
  ])('$text', ({ text, said }) => {
    const problems = problemsIn('system', text);
    expect(problems.map(problem => `${problem.id} at ${tokenOf(problem)}: ${problem.message}`)).toEqual(said);
  });
});

describe('a fix', () => {
  const files = [
    ...system.map(({ text }) => ({ kind: 'system' as const, text: `format: 1\nsystem: x\n${text}` })),
    ...procedure.map(({ text }) => ({ kind: 'procedure' as const, text: `format: 1\nprocedure: x\n${text}` })),
    { kind: 'system' as const, text: 'parts:\n  F1:\n    rating: 10 A # as printed on it\n' },
    { kind: 'procedure' as const, text: 'format: one\n' },
  ];
  const offered = files.flatMap(({ kind, text }) =>
    [text, text.replaceAll('\n', '\r\n')].flatMap(written => {
      const tree = parse(written);
      return checkFile(kind, tree).flatMap(({ message, fixes = [] }) =>
        fixes.map(fix => {
          const { start, end } = tree.absolute(fix.span);
          return { kind, message, written, fixed: written.slice(0, start) + fix.text + written.slice(end) };
        }),
      );
    }),
  );

  it('takes its mistake away and leaves a file that can be read', () => {
    expect(offered.length).toBeGreaterThan(40);
    for (const { kind, message, fixed } of offered) {
      expect(parse(fixed).problems, fixed).toEqual([]);
      expect(
        problemsIn(kind, fixed).map(problem => problem.message),
        fixed,
      ).not.toContain(message);
    }
  });

  it('is made without asking only where nothing but the form was wrong', () => {
    const made = files.flatMap(({ kind, text }) =>
      problemsIn(kind, text).flatMap(({ fixes = [] }) => fixes.filter(fix => fix.preferred)),
    );
    expect(made.map(({ text }) => text)).toEqual([
      'rating',
      'pull-in',
      'pull-in',
      'rating: 10 A',
      '"Frame, left rear"',
      'low side',
    ]);
  });

  it('keeps the line breaks of the file', () => {
    const breaks = offered.map(({ written, fixed }) =>
      [written, fixed].map(text => text.replaceAll('\r\n', '').includes('\n')),
    );
    for (const [before, after] of breaks) expect(after).toBe(before);
  });
});

describe('what is said', () => {
  const problems = [
    ...system.flatMap(({ text }) => problemsIn('system', `format: 1\nsystem: x\n${text}`)),
    ...procedure.flatMap(({ text }) => problemsIn('procedure', `format: 1\nprocedure: x\n${text}`)),
  ];

  it('is what was read in review', async () => {
    const said = problems.map(({ id, message, detail, help }) => [`${id}: ${message}`, detail, `help: ${help}`]);
    const page = said.map(lines => lines.filter(line => line !== undefined).join('\n  ')).join('\n');
    await expect(`${page}\n`).toMatchFileSnapshot('golden/messages.txt');
  });

  it('keeps to the form of messages', () => {
    expect(problems.length).toBeGreaterThan(50);
    for (const { message, detail, help } of problems) {
      expect(message.length, message).toBeLessThanOrEqual(90);
      expect(message).toMatch(/^[`A-Z].*[^.]$/);
      expect(detail ?? 'A sentence.').toMatch(/^[`A-Z].*[.?]$/);
      expect(help, message).toMatch(/^(Add|Begin|Keep|Remove|Update|Use|Write) .*\.$/s);
      expect(`${message} ${detail} ${help}`).not.toMatch(/\b(NaN|null|please|illegal|invalid)\b|\[object/i);
    }
  });

  it('stays short however long the names are', () => {
    const long = 'x'.repeat(300);
    const texts = [
      `parts: { ${long}: { kind: ${long} } }`,
      `parts: { ${long}: {} }`,
      `wires:\n  - ${long}: a\n    y${long}: b`,
      `${long}: 1`,
    ];
    const messages = texts
      .flatMap(text => problemsIn('system', `format: 1\nsystem: x\n${text}`))
      .map(({ message }) => message);
    expect(messages).toHaveLength(4);
    for (const message of messages) expect(message.length, message).toBeLessThanOrEqual(90);
  });
});
