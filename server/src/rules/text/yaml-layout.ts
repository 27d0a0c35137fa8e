import { syntaxProblems } from '../../syntax/problems.ts';
import { lampProcedure } from '../example.ts';
import { stageRules, system } from './stage.ts';

/** Lines, dashes and names that are not laid out as YAML wants them. */
export const yamlLayout = stageRules({
  'bad-indentation': {
    title: syntaxProblems['bad-indentation'],
    explanation: `
Entries that belong together begin in the same column, and what belongs to an entry stands further in. This line begins in a column
of its own, so it is not known where it belongs. Move it under its neighbours.`,
    bad: system(`
conditions:
  key: [off, run]
   seat: [empty, occupied]
#  ^^^^ error bad-indentation: \`seat\` is not in line with the entries above it
`),
    good: system('conditions:\n  key: [off, run]\n  seat: [empty, occupied]\n'),
  },
  'tab-indentation': {
    title: syntaxProblems['tab-indentation'],
    explanation:
      'A tab is as wide as each editor likes, so YAML allows only blanks before an entry. Write two blanks instead.',
    bad: system(`
conditions:
\tkey: [off, run]
#< error tab-indentation: Tab used for indentation
`),
    good: system('conditions:\n  key: [off, run]\n'),
  },
  'missing-dash': {
    title: syntaxProblems['missing-dash'],
    explanation:
      'Every item of a list begins with a dash and a blank. This line stands among items and has none. Write the dash.',
    bad: `
format: 1
procedure: lamp-dark
tools:
  - multimeter
  recorder
# ^^^^^^^^ error missing-dash: \`recorder\` stands in a list without a dash
`,
    good: lampProcedure(`
tools:
  - multimeter
  - recorder
steps:
  look: { do: Look at the lamp, then: not-found }
endings:
  not-found: { no fault: The lamp is bright }
`),
  },
  'mixed-list-and-map': {
    title: syntaxProblems['mixed-list-and-map'],
    explanation: `
At one place stands either a list, each item with a dash, or entries with names. Here a dash follows entries with names. Delete the
dash, or give every entry one.`,
    bad: system(`
conditions:
  key: [off, run]
  - seat: [empty, occupied]
# ^ error mixed-list-and-map: Dash stands among entries with names
`),
    good: system('conditions:\n  key: [off, run]\n  seat: [empty, occupied]\n'),
  },
  'list-on-key-line': {
    title: syntaxProblems['list-on-key-line'],
    explanation:
      'A list with dashes begins on the line below its name. On the line of the name it is written in brackets: `[off, run]`.',
    bad: system(`
conditions:
  key: - off
#      ^ error list-on-key-line: List begins on the line of \`key\`
       - run
`),
    good: system('conditions:\n  key:\n    - off\n    - run\n'),
  },
  'duplicate-key': {
    title: syntaxProblems['duplicate-key'],
    explanation: `
The same name stands twice in one place, so one of the two values would be lost without a word. Delete one of them, or rename it.`,
    bad: system(`
title: Lamp
title: Work lamp
#<--- error duplicate-key: \`title\` stands twice in the same place
`),
    good: system('title: Work lamp\n'),
  },
  'key-not-text': {
    title: syntaxProblems['key-not-text'],
    explanation:
      'A name is a text. Here a list or a map stands where the name belongs. Write a name, then a colon, then the value.',
    bad: system(`
? [a, b]
# ^ error key-not-text: A name cannot be a list or a map
: text
`),
    good: system('variants: { a: One lamp, b: Two lamps }\n'),
  },
  'key-over-lines': {
    title: syntaxProblems['key-over-lines'],
    explanation:
      'A name stands on one line, with its colon. Write it on one line; a long text belongs behind the colon.',
    bad: system(`
"two
#< error key-over-lines: Name goes over several lines
  lines": text
`),
    good: system('title: >\n  A long text may go\n  over several lines\n'),
  },
  'key-too-long': {
    title: syntaxProblems['key-too-long'],
    explanation:
      'A name of more than a thousand characters is surely no name. Mostly a quote is missing, or a text lost its name.',
    bad: system(`
${'lamp '.repeat(220)}lamp: text
#${'<'}${'-'.repeat(1102)} error key-too-long: Name before the colon is longer than 1024 characters
`),
    good: system('title: Lamp\n'),
  },
  'several-documents': {
    title: syntaxProblems['several-documents'],
    explanation:
      'A line of `---` begins a second document. A file holds one system, procedure or set of walks. Put the rest in a file of its own.',
    bad: system(`
title: Lamp
---
#<- error several-documents: Second document begins in the same file
system: second
`),
    good: system('title: Lamp\n'),
  },
});
