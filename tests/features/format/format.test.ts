import * as fs from 'node:fs';
import fc from 'fast-check';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { applied, format } from '../../../server/src/features/format/format.ts';
import { saysTheSame } from '../../../server/src/features/format/same.ts';
import { parse } from '../../../server/src/syntax/parse.ts';

function formatted(text: string): string {
  return applied(text, format(parse(text)));
}

const examples = globSync('examples/*/*.yaml').map(file => fs.readFileSync(file, 'utf8'));

describe('formatting', () => {
  it('indents every level by two blanks, lists under their key too', () => {
    expect(
      formatted(
        [
          'steps:',
          '    look:',
          '        set: {key: run,S6: on}',
          '        inspect: [ W41,W42 ]',
          'wires:',
          '- W41:   S6.1 to A1.14',
          '-   W42:  S6.2 to GND-4',
        ].join('\n'),
      ),
    ).toBe(
      [
        'steps:',
        '  look:',
        '    set: { key: run, S6: on }',
        '    inspect: [W41, W42]',
        'wires:',
        '  - W41: S6.1 to A1.14',
        '  - W42: S6.2 to GND-4',
        '',
      ].join('\n'),
    );
  });

  it('moves comments with what they stand beside, and keeps their column where it can', () => {
    expect(
      formatted(
        [
          '# the file',
          'steps:',
          '      # the step',
          '      look:',
          '            minutes:    5   # more or less',
          '      # the end of the steps',
          'endings: {}',
        ].join('\n'),
      ),
    ).toBe(
      [
        '# the file',
        'steps:',
        '  # the step',
        '  look:',
        '    minutes: 5              # more or less',
        '  # the end of the steps',
        'endings: {}',
        '',
      ].join('\n'),
    );
  });

  it('gives brackets over several lines a level each', () => {
    expect(
      formatted(
        'parts:\n    A: { kind: lamp,\n         power: 21 W,\n         table: [\n               {a: 1},\n         ],\n         }\n',
      ),
    ).toBe('parts:\n  A: { kind: lamp,\n    power: 21 W,\n    table: [\n      { a: 1 },\n    ],\n  }\n');
  });

  it('keeps text over several lines, and moves it as a whole', () => {
    expect(formatted('a:\n      b: |\n          one\n            two\n\n      c: long text\n         goes on\n')).toBe(
      'a:\n  b: |\n    one\n      two\n\n  c: long text\n    goes on\n',
    );
  });

  it('never touches a name or a value: commas in a wire, quotes, a hash inside a word', () => {
    const text = 'wires:\n  - W1: A.1 to B.2,1 mm²,  red#3\n  - "W  2":   \'a ,b\'   \n';
    expect(formatted(text)).toBe('wires:\n  - W1: A.1 to B.2,1 mm²,  red#3\n  - "W  2": \'a ,b\'\n');
  });

  it('keeps the line breaks of the file, and characters beyond the basic plane', () => {
    expect(formatted('títle:   𝛺 Größe   \r\nsteps:\r\n    é: {ü: 1}')).toBe(
      'títle: 𝛺 Größe\r\nsteps:\r\n  é: { ü: 1 }\r\n',
    );
  });

  it('ends a file with one line break', () => {
    expect(formatted('a: 1\n\n\n  \n')).toBe('a: 1\n');
    expect(formatted('')).toBe('');
  });

  it('formats only the lines asked for', () => {
    const text = 'a:   1\nb:   2\nc:   3\n';
    const edits = format(parse(text), { start: 8, end: 9 });
    expect(applied(text, edits)).toBe('a:   1\nb: 2\nc:   3\n');
  });

  it('leaves a file alone that cannot be read', () => {
    expect(format(parse('a:   1\n b: [2\n'))).toEqual([]);
  });

  it('has nothing to do in the examples', () => {
    expect(examples.length).toBeGreaterThan(5);
    for (const text of examples) expect(format(parse(text))).toEqual([]);
  });

  it('brings an example back to itself after its blanks were stretched', () => {
    const example = fc.constantFrom(...examples);
    fc.assert(
      fc.property(example, fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 3 }), (text, factor, gap) => {
        const wider = text
          .split('\n')
          .map(line => ' '.repeat((line.length - line.trimStart().length) * factor) + line.trimStart())
          .map(line => line.replace(/^( *)- /, `$1-${' '.repeat(2 * factor - 1)}`))
          .map(line => line.replace(/^([^#'"]*?\S): (?=\S)(?!.*#)/, `$1:${' '.repeat(gap)}`))
          .join('\n');
        expect(uncommented(formatted(wider))).toBe(uncommented(text));
      }),
      { numRuns: 60 },
    );
  });

  it('never changes what a file says, and does nothing a second time', () => {
    const pieces = ['a', 'b c', ': ', ':', '- ', '-', ' ', '  ', '\n', '\n  ', '\n    ', '{', '}', '[', ']', ', ', ','];
    const more = [
      "'x y'",
      '"q"',
      '# note',
      ' # note',
      '| \n      t',
      '>-\n    u\n   v',
      '\r\n',
      'ü',
      '&n ',
      '*n',
      '!t ',
    ];
    const file = fc.array(fc.constantFrom(...pieces, ...more), { maxLength: 30 }).map(parts => parts.join(''));
    fc.assert(
      fc.property(file, text => {
        const before = parse(text);
        const once = formatted(text);
        const after = parse(once);
        if (before.problems.length === 0) expect(saysTheSame(before.root, after.root)).toBe(true);
        expect(formatted(once)).toBe(once);
      }),
      { numRuns: 3000 },
    );
  });
});

/** Trailing comments keep their column, which moves with the blanks before them. */
function uncommented(text: string): string {
  return text.replace(/ +#.*$/gm, '');
}
