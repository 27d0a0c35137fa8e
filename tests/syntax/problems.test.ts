import { describe, expect, it } from 'vitest';
import { parse } from '../../server/src/syntax/parse.ts';
import { type SyntaxProblemId, syntaxProblems } from '../../server/src/syntax/problems.ts';
import { type Plain, plain, told } from './support.ts';

/** Text, the problem it has, the source this points at, its first line, and what is still understood of the text. */
type Case = [text: string, id: SyntaxProblemId, at: string, message: string, value: Plain];

const layout: Case[] = [
  [
    'a:\n    b: 1\n  c: 2\n',
    'bad-indentation',
    'c',
    '`c` is not in line with the entries above it',
    { a: { b: '1', c: '2' } },
  ],
  ['a:\n  b: 1\n    c: 2\n', 'bad-indentation', 'c', '`c` is indented too far', { a: { b: '1', c: '2' } }],
  ['a: 1\n  c: 2\nd: 3\n', 'bad-indentation', 'c', '`c` is indented too far', { a: '1', c: '2', d: '3' }],
  ['a:\n  - b\n - c\n', 'bad-indentation', '-', '`-` is not in line with the entries above it', { a: ['b', 'c'] }],
  ['a: |\n   \n  x\n', 'bad-indentation', 'x', 'Text is not indented like its first line', { a: ' \nx\n' }],
  ['a:\n\tb: 1\n', 'tab-indentation', '\t', 'Tab used for indentation', { a: '', b: '1' }],
  ['a:\n  b: 1\n\tc: 2\n', 'tab-indentation', '\t', 'Tab used for indentation', { a: { b: '1' } }],
  ['a:\n  - b\n  c: d\n', 'missing-dash', 'c', '`c` stands in a list without a dash', { a: ['b', { c: 'd' }] }],
  ['a:\n  c: d\n  - b\n', 'mixed-list-and-map', '-', 'Dash stands among entries with names', { a: { c: 'd' } }],
  ['a: x\n- b\n', 'mixed-list-and-map', '-', 'Dash stands among entries with names', { a: 'x' }],
  ['a: - b\n', 'list-on-key-line', '-', 'List begins on the line of `a`', { a: '', b: '' }],
];

const names: Case[] = [
  ['format: 1\nproc', 'missing-colon', 'proc', '`proc` has no colon', { format: '1', proc: '' }],
  ['x:\n  a\n  c: d\n', 'missing-colon', 'a', '`a` has no colon', { x: { a: '', c: 'd' } }],
  ['x:\n  a\n    c: 1\n    d: 2\n', 'missing-colon', 'a', '`a` has no colon', { x: { a: { c: '1', d: '2' } } }],
  ['x\n  a: 1\n', 'missing-colon', 'x', '`x` has no colon', { x: { a: '1' } }],
  ['x:\n  a: 1\n  {b: 2}\n', 'missing-colon', '{b:', '`{b:` stands where a name belongs', { x: { a: '1' } }],
  ['x:\n  a:b\n  c: d\n', 'missing-blank', ':', 'Blank missing behind the colon in `a:b`', { x: { a: 'b', c: 'd' } }],
  ['x: { a:b, c: d }\n', 'missing-blank', ':', 'Blank missing behind the colon in `a:b`', { x: { a: 'b', c: 'd' } }],
  ['x:\n  - a\n  -b\n', 'missing-dash', '-b', '`-b` stands in a list without a dash', { x: ['a', '-b'] }],
  ['a: 1\n: b\n', 'missing-key', ':', 'No name stands here', { a: '1' }],
  ['a: {{ x }}\n', 'key-not-text', '{', 'A name cannot be a list or a map', { a: {} }],
  ['x:\n  "a\n   b": 1\n', 'key-over-lines', '"', 'Name goes over several lines', { x: { 'a b': '1' } }],
  ['a: 1\n<<: { b: 2 }\n', 'merge-key', '<<', 'Entries cannot be copied with `<<`', { a: '1' }],
];

const texts: Case[] = [
  [
    'a: Check: the valve\nb: 1\n',
    'colon-in-text',
    'Check: the valve',
    'Text with a colon and a blank in it needs quotes',
    { a: 'Check: the valve', b: '1' },
  ],
  [
    'a: { b: c: d, e: f }\n',
    'colon-in-text',
    'c: d',
    'Text with a colon and a blank in it needs quotes',
    { a: { b: 'c: d', e: 'f' } },
  ],
  ['a: @b c\n', 'needs-quotes', '@b', 'Text that begins with `@` needs quotes', { a: '@b c' }],
  ['a: `b\n', 'needs-quotes', '`b', 'Text that begins with a backtick needs quotes', { a: '`b' }],
  ['a: %b\n', 'needs-quotes', '%b', 'Text that begins with `%` needs quotes', { a: '%b' }],
  ['a: > 4.4 V\n', 'needs-quotes', '>', 'Text that begins with `>` needs quotes', { a: '> 4.4 V' }],
  [
    'a: { b: > 4.4 V, c: 1 }\n',
    'needs-quotes',
    '>',
    'Text that begins with `>` needs quotes',
    { a: { b: '> 4.4 V', c: '1' } },
  ],
  ['a: **loud**\n', 'unknown-alias', '**loud**', '`**loud**` refers to nothing above it', { a: '**loud**' }],
  ['a: !loud text\n', 'tag-without-meaning', '!loud', 'Tag `!loud` has no meaning here', { a: 'text' }],
  ['a: &x &y b\n', 'misplaced-mark', '&y', '`&y` cannot stand here', { a: 'b' }],
  ['a: "C:\\data"\n', 'unknown-escape', '\\d', '`\\d` has no meaning inside double quotes', { a: 'C:\\data' }],
  ['a: "b" c\nd: 1\n', 'text-after-value', 'c', '`c` stands behind a closing quote', { a: 'b', d: '1' }],
  ['a: [b] c\n', 'text-after-value', 'c', '`c` stands behind a closing bracket', { a: ['b'] }],
  ['a: "b"#c\n', 'comment-without-blank', '#', 'Comment begins directly behind a value', { a: 'b' }],
];

const open: Case[] = [
  [
    'x:\n  a: "b\n  c: d\n',
    'unclosed-quote',
    '"',
    'Double quote is opened here and not closed',
    { x: { a: 'b', c: 'd' } },
  ],
  [
    "x:\n  y:\n    a: 'b\n    c: d\n    e: f\n",
    'unclosed-quote',
    "'",
    'Single quote is opened here and not closed',
    { x: { y: { a: 'b', c: 'd', e: 'f' } } },
  ],
  [
    'x:\n  y:\n    a: "b\n    c: d\n    e: "f g"\n',
    'unclosed-quote',
    '"',
    'Double quote is opened here and not closed',
    { x: { y: { a: 'b', c: 'd', e: 'f g' } } },
  ],
  [
    'x:\n  y:\n    a: [b, c\n    d: e\n',
    'unclosed-bracket',
    '[',
    '`[` is not closed',
    { x: { y: { a: ['b', 'c'], d: 'e' } } },
  ],
  [
    'x:\n  y: { a: 1, b: 2\n  z: { c: 3 }\n',
    'unclosed-bracket',
    '{',
    '`{` is not closed',
    { x: { y: { a: '1', b: '2' }, z: { c: '3' } } },
  ],
  ['x: { a: 1 ]\n', 'unclosed-bracket', '{', '`{` is not closed', { x: { a: '1' } }],
  ['x: {\na: 1\n}\n', 'unclosed-bracket', '{', '`{` is not closed', { x: {}, a: '1' }],
  ['x:\n  y:\n    a: ]\n    b: 1\n', 'stray-bracket', ']', '`]` closes nothing', { x: { y: { a: '', b: '1' } } }],
  ['a: [b,,c]\n', 'extra-comma', ',', 'Comma with nothing before it', { a: ['b', 'c'] }],
  ['a: ["b" "c"]\n', 'missing-comma', '"c"', 'Comma missing before `"c"`', { a: [{ b: 'c' }] }],
  ['a: { b: "x" c: 1 }\n', 'missing-comma', 'c:', 'Comma missing before `c:`', { a: { b: 'x' } }],
  ['a: [\n  - b\n  ]\n', 'bracket-holds-block', '-', '`-` stands inside brackets', { a: [['b']] }],
];

const whole: Case[] = [
  ['a: 1\n---\nb: 2\n', 'several-documents', '---', 'Second document begins in the same file', { a: '1' }],
  ['--- &x\na: 1\n---\nb: *y\n', 'several-documents', '---', 'Second document begins in the same file', { a: '1' }],
  ['- a\nb: 1\n', 'bad-indentation', 'b', '`b` is not in line with what stands above it', ['a']],
  [
    `a: 1\n${'k'.repeat(1100)}: 2\n`,
    'key-too-long',
    'k'.repeat(1100),
    'Name before the colon is longer than 1024 characters',
    { a: '1', ['k'.repeat(1100)]: '2' },
  ],
  ['a: *x{\n', 'unreadable-text', '{', '`{` cannot stand here', { a: '*x' }],
];

describe('problems', () => {
  it('are one for each unit, and each at its own', () => {
    const tree = parse('a: [1\nb: "c\nsteps:\n  d: @e @f\n  g: 1\n  h: [ {x: 1, y: "2 ]\n');
    expect(told(tree).map(({ id, at }) => `${id} ${at}`)).toEqual([
      'unclosed-bracket [',
      'unclosed-quote "',
      'needs-quotes @e',
      'unclosed-quote "',
    ]);
  });

  it('stand beside one another where they concern meaning', () => {
    const tree = parse('a: { b: !t 1, b: 2, c: *d }\n');
    expect(told(tree).map(({ id }) => id)).toEqual(['tag-without-meaning', 'duplicate-key', 'unknown-alias']);
  });

  it.each([
    ['in one unit', 'a: { b: 1, c: 2, b: 3 }\n'],
    ['in two units', 'a: 1\nb: 1\nc: 2\nb: 3\n'],
    ['among the children of an entry', 'a:\n  b: 1\n  c: 2\n  b: 3\n'],
    ['in a text read as a whole', 'x: &y 1\nz: *y\na: { b: 1, c: 2, b: 3 }\n'],
    ['with quotes', 'a: { b: 1, "b": 3 }\n'],
  ])('of a name that stands twice point at both, %s', (_, text) => {
    const tree = parse(text);
    const [problem, ...others] = tree.problems;
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ id: 'duplicate-key', message: '`b` stands twice in the same place' });
    expect(tree.absolute(problem!.span).start).toBe(text.lastIndexOf(text.includes('"b"') ? '"b"' : 'b'));
    expect(tree.absolute(problem!.related![0]!.span).start).toBe(text.indexOf('b'));
  });

  it('are not made of names in places of their own', () => {
    expect(parse('a:\n  x: 1\nb:\n  x: 1\nc: [ { x: 1 }, { x: 1 } ]\nx: 1\n').problems).toEqual([]);
  });

  it('all have a case here or in the tests beside this one', () => {
    const elsewhere = [
      'binary-content',
      'conflict-marker',
      'control-character',
      'cyclic-alias',
      'duplicate-key',
      'file-too-large',
    ];
    const covered = Object.values(tables).flatMap(cases => cases.map(([, id]) => id));
    const all = [...covered, ...elsewhere, 'too-deep', 'too-many-aliases'];
    expect([...new Set(all)].sort()).toEqual(Object.keys(syntaxProblems).sort());
  });
});

const tables = { layout, names, texts, 'quotes and brackets': open, 'the whole file': whole };

describe.each(Object.entries(tables))('a mistake of %s', (_, cases) => {
  it.each(cases)('%j is told as %s at %j', (text, id, at, message, value) => {
    const tree = parse(text);
    expect(told(tree)).toEqual([{ id, at, message }]);
    expect(plain(tree.root)).toEqual(value);
    const crlf = parse(text.replaceAll('\n', '\r\n'));
    expect(told(crlf)).toEqual([{ id, at, message }]);
    expect(plain(crlf.root)).toEqual(value);
  });
});
