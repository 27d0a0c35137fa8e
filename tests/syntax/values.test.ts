/**
 * The values of a tree, held against the failsafe schema of the `yaml` package (2.9.1) and against the examples of the YAML
 * specification, revision 1.2.2 (yaml.org/spec/1.2.2), chapter 2: those with one document, a map at the root and no tags.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse as parseYaml } from 'yaml';
import { parse } from '../../server/src/syntax/parse.ts';
import { procedure } from './arbitraries.ts';
import { type Plain, plain, sample } from './support.ts';

/** Number in the specification, text, value. The texts are quoted from the specification. */
const examples: [number: string, text: string, value: Plain][] = [
  [
    '2.2',
    'hr:  65    # Home runs\navg: 0.278 # Batting average\nrbi: 147   # Runs Batted In\n',
    { hr: '65', avg: '0.278', rbi: '147' },
  ],
  [
    '2.3',
    'american:\n- Boston Red Sox\n- Detroit Tigers\n- New York Yankees\nnational:\n- New York Mets\n- Chicago Cubs\n- Atlanta Braves\n',
    {
      american: ['Boston Red Sox', 'Detroit Tigers', 'New York Yankees'],
      national: ['New York Mets', 'Chicago Cubs', 'Atlanta Braves'],
    },
  ],
  [
    '2.6',
    'Mark McGwire: {hr: 65, avg: 0.278}\nSammy Sosa: {\n    hr: 63,\n    avg: 0.288,\n  }\n',
    { 'Mark McGwire': { hr: '65', avg: '0.278' }, 'Sammy Sosa': { hr: '63', avg: '0.288' } },
  ],
  [
    '2.9',
    '---\nhr: # 1998 hr ranking\n- Mark McGwire\n- Sammy Sosa\n# 1998 rbi ranking\nrbi:\n- Sammy Sosa\n- Ken Griffey\n',
    { hr: ['Mark McGwire', 'Sammy Sosa'], rbi: ['Sammy Sosa', 'Ken Griffey'] },
  ],
  [
    '2.10',
    '---\nhr:\n- Mark McGwire\n# Following node labeled SS\n- &SS Sammy Sosa\nrbi:\n- *SS # Subsequent occurrence\n- Ken Griffey\n',
    { hr: ['Mark McGwire', 'Sammy Sosa'], rbi: ['Sammy Sosa', 'Ken Griffey'] },
  ],
  [
    '2.16',
    'name: Mark McGwire\naccomplishment: >\n  Mark set a major league\n  home run record in 1998.\nstats: |\n  65 Home Runs\n  0.278 Batting Average\n',
    {
      name: 'Mark McGwire',
      accomplishment: 'Mark set a major league home run record in 1998.\n',
      stats: '65 Home Runs\n0.278 Batting Average\n',
    },
  ],
  [
    '2.17',
    "unicode: \"Sosa did fine.\\u263A\"\ncontrol: \"\\b1998\\t1999\\t2000\\n\"\nhex esc: \"\\x0d\\x0a is \\r\\n\"\n\nsingle: '\"Howdy!\" he cried.'\nquoted: ' # Not a ''comment''.'\ntie-fighter: '|\\-*-/|'\n",
    {
      unicode: 'Sosa did fine.\u263A',
      control: '\b1998\t1999\t2000\n',
      'hex esc': '\r\n is \r\n',
      single: '"Howdy!" he cried.',
      quoted: " # Not a 'comment'.",
      'tie-fighter': '|\\-*-/|',
    },
  ],
  [
    '2.18',
    'plain:\n  This unquoted scalar\n  spans many lines.\n\nquoted: "So does this\n  quoted scalar.\\n"\n',
    { plain: 'This unquoted scalar spans many lines.', quoted: 'So does this quoted scalar.\n' },
  ],
  // Of 2.19 to 2.22 the texts only: here every value is what the author wrote.
  [
    '2.19',
    'canonical: 12345\ndecimal: +12,345\noctal: 0o14\nhexadecimal: 0xC\n',
    { canonical: '12345', decimal: '+12,345', octal: '0o14', hexadecimal: '0xC' },
  ],
  [
    '2.21',
    "null:\nbooleans: [ true, false ]\nstring: '012345'\n",
    { null: '', booleans: ['true', 'false'], string: '012345' },
  ],
  [
    '2.22',
    'canonical: 2001-12-15T02:59:43.1Z\ndate: 2002-12-14\n',
    { canonical: '2001-12-15T02:59:43.1Z', date: '2002-12-14' },
  ],
];

describe('the values of a tree', () => {
  it.each(examples)('are those of example %s of the specification', (_, text, value) => {
    const tree = parse(text);
    expect(tree.problems).toEqual([]);
    expect(plain(tree.root)).toEqual(value);
  });

  it('are what the author wrote, whatever YAML would make of them', () => {
    const words = [
      'on',
      'off',
      'yes',
      'no',
      'null',
      '~',
      '12',
      '1e3',
      '0x1F',
      '1.5',
      'true',
      '.nan',
      '2026-01-01',
      '1_000',
    ];
    for (const word of words) {
      const { root } = parse(`a: ${word}\n${word}: { b: [${word}] }\n`);
      expect(plain(root)).toEqual({ a: word, [word]: { b: [word] } });
    }
  });

  it('agree with the package for a file that uses most of YAML', () => {
    const tree = parse(sample);
    expect(tree.problems).toEqual([]);
    expect(plain(tree.root)).toEqual(parseYaml(sample, { schema: 'failsafe' }));
  });

  it('agree with the package for procedures of any layout', () => {
    fc.assert(
      fc.property(procedure, text => {
        const names = parse(text).problems.map(problem => problem.id);
        fc.pre(names.length === 0);
        expect(plain(parse(text).root)).toEqual(filled(parseYaml(text, { schema: 'failsafe' })));
      }),
    );
  });

  it.each([
    ['CRLF', '\r\n'],
    ['lone CR', '\r'],
  ])('are the same with %s', (_, lineBreak) => {
    const text = sample.replaceAll('\n', lineBreak);
    const tree = parse(text);
    expect(tree.problems).toEqual([]);
    expect(plain(tree.root)).toEqual(plain(parse(sample).root));
    expect(tree.text).toBe(text);
  });

  it('are the same behind a byte order mark', () => {
    const tree = parse(`\uFEFF${sample}`);
    expect(tree.problems).toEqual([]);
    expect(plain(tree.root)).toEqual(plain(parse(sample).root));
    expect(plain(parse('\uFEFFa: 1').root)).toEqual({ a: '1' });
    expect(plain(parse('\uFEFF- a').root)).toEqual(['a']);
  });

  it.each([
    ['an empty file', ''],
    ['blank lines', '\n\n  \n'],
    ['comments', '# one\n\n  # two'],
    ['a document mark', '---\n# nothing yet\n'],
  ])('are empty for %s', (_, text) => {
    const tree = parse(text);
    expect(tree.root.kind).toBe('empty');
    expect(tree.problems).toEqual([]);
    expect(tree.readable).toBe(true);
  });

  it('are shared where an alias refers to an anchor', () => {
    const tree = parse('a: &x { b: 1 }\nc: *x\n');
    expect(tree.problems).toEqual([]);
    if (tree.root.kind !== 'map') throw new Error('no map');
    expect(tree.root.entries[1]!.value).toBe(tree.root.entries[0]!.value);
  });
});

/** The package gives null for a map entry without a value in some places. */
function filled(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value), (_, inner) => inner ?? '');
}
