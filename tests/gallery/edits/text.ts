import { alarm, type Breakage, bilge, type Edit } from '../edit.ts';

const tools = 'tools: [multimeter, recorder]';
const title = 'title: See whether there is water';
const firstAnswer = '      yes: pump-out';

/** YAML itself: brackets, quotes, marks, and how entries stand under one another. */
export const text: readonly Breakage[] = [
  inAlarm('unclosed-bracket', 'the list of tools is not closed', [tools, 'tools: [multimeter, recorder']),
  inAlarm('stray-bracket', 'one bracket too many behind the list of tools', [tools, `${tools}]`]),
  inAlarm('bracket-holds-block', 'a dash inside brackets', [tools, 'tools: [\n  - multimeter\n]']),
  inAlarm('missing-comma', 'no comma between the two tools', [tools, 'tools: ["multimeter" "recorder"]']),
  inAlarm('extra-comma', 'two commas, and nothing between them', [tools, 'tools: [multimeter,, recorder]']),
  inAlarm('unclosed-quote', 'the quote is opened and not closed', [title, 'title: "See whether there is water']),
  inAlarm('text-after-value', 'the quote is closed too early', [title, 'title: "See whether" there is water']),
  inAlarm('unknown-escape', 'a backslash in double quotes', [title, 'title: "See \\whether there is water"']),
  inAlarm('colon-in-text', 'a colon and a blank in a text without quotes', [
    title,
    'title: Water: see whether there is',
  ]),
  inAlarm('needs-quotes', 'the text begins with a character of YAML', [
    title,
    'title: @bilge, see whether there is water',
  ]),
  inAlarm('comment-without-blank', 'no blank before the comment', [tools, `${tools}# both on board`]),
  inAlarm('missing-blank', 'no blank behind the colon', [title, 'title:See whether there is water']),
  inAlarm('missing-colon', 'no colon behind `minutes`', [`${title}\n    minutes: 2`, `${title}\n    minutes 2`]),
  inAlarm('bad-indentation', '`minutes` is one column too far right', [
    `${title}\n    minutes: 2`,
    `${title}\n     minutes: 2`,
  ]),
  inAlarm('tab-indentation', 'a tab in front of `minutes`', [`${title}\n    minutes: 2`, `${title}\n\tminutes: 2`]),
  inAlarm('missing-dash', 'the second tool has no dash', [tools, 'tools:\n  - multimeter\n  recorder']),
  inAlarm('mixed-list-and-map', 'a dash in front of the second answer', [
    `${firstAnswer}\n      no:`,
    `${firstAnswer}\n      - no:`,
  ]),
  inAlarm('list-on-key-line', 'the list begins on the line of its name', [
    tools,
    'tools: - multimeter\n       - recorder',
  ]),
  inAlarm('duplicate-key', 'the step has two titles', [title, `${title}\n    title: Look into the bilge`]),
  inAlarm('key-not-text', 'a list where an answer belongs', [
    firstAnswer,
    '      ? [yes, certainly]\n      : pump-out',
  ]),
  inAlarm('key-over-lines', 'an answer goes over two lines', [
    firstAnswer,
    '      "yes,\n        certainly": pump-out',
  ]),
  inAlarm('key-too-long', 'an answer of more than 1024 characters', [
    firstAnswer,
    `      ${'yes and '.repeat(128)}yes: pump-out`,
  ]),
  inAlarm('several-documents', 'a second document begins at the end', [
    /(?<=\n {4}because: Water .*\n)$/,
    '---\nformat: 1\nprocedure: another-one\n',
  ]),
  inAlarm('conflict-marker', 'an unfinished merge', [
    'title: High-water alarm sounds with a dry bilge',
    [
      '<<<<<<< mine',
      'title: High-water alarm sounds with a dry bilge',
      '=======',
      'title: High-water alarm without high water',
      '>>>>>>> theirs',
    ].join('\n'),
  ]),
  inAlarm('control-character', 'a character that nobody sees', [title, 'title: See whether\u0007 there is water']),
  inAlarm('too-deep', 'brackets in brackets', [tools, `tools: ${'['.repeat(110)}recorder${']'.repeat(110)}`]),
  inAlarm('unknown-alias', 'nothing is marked `&first`', ['start: bilge', 'start: *first']),
  inAlarm('cyclic-alias', 'the list refers to itself', [tools, 'tools: &tools [multimeter, *tools]']),
  inAlarm('too-many-aliases', 'references to references, which grow without end', [tools, aliases()]),
  inAlarm('merge-key', 'entries are copied with `<<`', [
    'inspect: [debris-guard, S4, X6, W37, W38]',
    '<<: { inspect: [debris-guard, S4, X6, W37, W38] }',
  ]),
  inAlarm('tag-without-meaning', 'a tag in front of a text', [title, 'title: !!str See whether there is water']),
  inAlarm('misplaced-mark', 'two marks on one text', [title, 'title: &a &b See whether there is water']),
  inAlarm('unreadable-text', 'text behind a reference', [
    'procedure: alarm-with-dry-bilge\ntitle: High-water alarm sounds with a dry bilge',
    'procedure: &name alarm-with-dry-bilge\ntitle: *name and more',
  ]),
];

/** Keys and what stands behind them. */
export const shape: readonly Breakage[] = [
  inAlarm('unknown-key', '`titel` is not a key', [title, 'titel: See whether there is water']),
  inBilge('missing-key', 'the alarm fuse has no rating', ['title: Alarm fuse, rating: 3 A', 'title: Alarm fuse']),
  inBilge('conflicting-keys', 'shore power has states and a range', ['[off, on]', '[off, on]\n    from: 0 V']),
  inAlarm('wrong-shape', 'a list where a text belongs', [title, 'title: [See whether there is water]']),
  inAlarm('wrong-count', 'the recording has no channel', ['channels: [A2 float line, A2 level, A2.5]', 'channels: []']),
  inAlarm('empty-value', '`minutes` has no value', [`${title}\n    minutes: 2`, `${title}\n    minutes:`]),
  inBilge('unknown-kind', 'the buzzer is a `cool`', ['B1: { kind: coil', 'B1: { kind: cool']),
  inBilge('unknown-value', 'a hazard that is not known', [
    'hazard: chemical\n    access: 3 min\n  G2',
    'hazard: chemcal\n    access: 3 min\n  G2',
  ]),
  inAlarm('wrong-format-version', 'a file for a later release', ['format: 1', 'format: 2']),
  inAlarm('no-action', '`which-signal` does not say what to do', ['    ask: Which of the two is on?\n', '']),
  inAlarm('more-than-one-action', 'one step asks and says what to do', [
    'ask: Does water reach the high-water float?',
    'ask: Does water reach the high-water float?\n    do: Lift the floor plate',
  ]),
];

/** Numbers and units, in the end-of-line resistor where it can be, and other lines with a grammar of their own. */
export const values: readonly Breakage[] = [
  inResistor('missing-value', 'a unit without a number', 'kΩ'),
  inResistor('unreadable-number', 'digits that make no number', '4.7.0 kΩ ± 2 %'),
  inResistor('ambiguous-number', 'a comma that can be read in two ways', '"4,700 Ω ± 2 %"'),
  inResistor('missing-unit', 'a number without its unit', '4700'),
  inResistor('unknown-unit', 'a unit that is not known', '4.7 kohn ± 2 %'),
  inBilge('unit-case', 'volts with a small letter', ['voltage: 12.8 V ± 0.4 V', 'voltage: 12.8 v ± 0.4 V']),
  inResistor('unexpected-text', 'words behind the value', '4.7 kΩ ± 2 % or so'),
  inAlarm('missing-end', 'the range has no upper end', ['limits: 78 Ω .. 102 Ω', 'limits: 78 Ω ..']),
  inAlarm('range-mark', 'a dash between the ends of a range', ['limits: 78 Ω .. 102 Ω', 'limits: 78 Ω - 102 Ω']),
  inAlarm('inverted-range', 'the higher end comes first', ['limits: 78 Ω .. 102 Ω', 'limits: 102 Ω .. 78 Ω']),
  inResistor('nominal-outside-range', 'the value lies outside its own range', '5 kΩ (4.6 kΩ .. 4.8 kΩ)'),
  inResistor('below-zero', 'a resistance below zero', '-4.7 kΩ ± 2 %'),
  inResistor('wide-tolerance', 'the tolerance is wider than the value', '4.7 kΩ ± 200 %'),
  inResistor('negative-tolerance', 'the tolerance has a sign', '4.7 kΩ ± -2 %'),
  inBilge('percent-of-zero', 'a percentage of 0 V', ['voltage: 12.8 V ± 0.4 V', 'voltage: 0 V ± 5 %']),
  inBilge('unknown-wire-size', 'a wire size that does not exist', ['F6.1, 1.5 mm²', 'F6.1, 75 AWG']),
  inBilge('unreadable-wire', 'a colour that is not known', ['violet/white', 'violte/white']),
  inBilge('unreadable-contact', '`M-P` does not name two terminals', ['M to P: manual', 'M-P: manual']),
  inBilge('falling-table', 'two currents of a table are swapped', [
    'R1: { kind: resistor, title: End-of-line resistor in the float box, resistance: 4.7 kΩ ± 2 %,',
    'R1: { kind: two-terminal, title: End-of-line resistor in the float box, table: [{ at: 0 V, is: 0 A }, { at: 6 V, is: 2.4 mA }, { at: 12 V, is: 1.2 mA }],',
  ]),
  inBilge(
    'unknown-curve',
    'there is no platinum thermometer of 10 Ω in the standard',
    ['\nparts:\n', '\n  bilge water: { from: 0 °C, to: 60 °C, rest: 15 °C }\n\nparts:\n'],
    [
      'R1: { kind: resistor, title: End-of-line resistor in the float box, resistance: 4.7 kΩ ± 2 %,',
      'R1: { kind: rtd, title: End-of-line resistor in the float box, follows: bilge water, curve: { standard: IEC 60751 Pt10 },',
    ],
  ),
  inBilge('impossible-part-value', 'the battery is charged to more than the whole', [
    'voltage: 12.8 V ± 0.4 V',
    'charge: 110 %',
  ]),
  inBilge('battery-without-voltage', 'nothing is said about the voltage of the alarm battery', [
    '    voltage: 12.8 V ± 0.4 V\n',
    '',
  ]),
  inAlarm('unreadable-lead', '`from behind` says nothing about a lead', [
    'red: S4.1 (back-probe)',
    'red: S4.1 (from behind)',
  ]),
  inAlarm('unknown-accuracy', 'the accuracy is not written as in a data sheet', [
    tools,
    `${tools}\nmeter: { voltage: { accuracy: good } }`,
  ]),
];

function inAlarm(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: alarm, what, edits };
}

function inBilge(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: bilge, what, edits };
}

function inResistor(rule: string, what: string, resistance: string): Breakage {
  return inBilge(rule, what, ['resistance: 4.7 kΩ ± 2 %', `resistance: ${resistance}`]);
}

function aliases(): string {
  const lists = ['- &a [multimeter, recorder]'];
  for (const [name, of] of ['ba', 'cb', 'dc', 'ed', 'fe'])
    lists.push(`- &${name} [${Array.from({ length: 10 }, () => `*${of}`).join(', ')}]`);
  return ['tools:', ...lists.map(list => `  ${list}`)].join('\n');
}
