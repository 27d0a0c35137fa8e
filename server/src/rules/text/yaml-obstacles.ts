import { syntaxProblems } from '../../syntax/problems.ts';
import { stageRules, system } from './stage.ts';

const lamp = system('title: Lamp\n');

/** Texts that cannot be read at all, and parts of YAML that these files do without. */
export const yamlObstacles = stageRules({
  'conflict-marker': {
    title: syntaxProblems['conflict-marker'],
    explanation: `
Two versions of the file were merged, and at this place somebody has to decide which one holds. Until then nothing in the file is
checked. Keep one of the two versions and delete the markers.`,
    bad: `
<<<<<<< ours
#<----- error conflict-marker: Markers of an unfinished merge stand in the file
format: 1
system: lamp
title: Lamp
=======
format: 1
system: lamp
title: Work lamp
>>>>>>> theirs
`,
    good: lamp,
  },
  'binary-content': {
    title: syntaxProblems['binary-content'],
    explanation: `
The file holds bytes that no text has: a picture or an archive under a wrong name, or a text in another encoding. Save the text as
UTF-8.`,
    bad: `
#! error binary-content: File is not text
\u0000system: lamp
`,
    good: lamp,
  },
  'file-too-large': {
    title: syntaxProblems['file-too-large'],
    explanation: `
The file has more than ten million characters. It is not read, so that the editor stays at hand. A system of that size is described in
several files that one of them includes.`,
    // An example of that length helps nobody.
    bad: '',
    good: lamp,
  },
  'control-character': {
    title: syntaxProblems['control-character'],
    explanation:
      'An invisible character stands in the text, mostly copied from another program. Delete it and type the text anew.',
    bad: system(`
title: La\u0007mp
#        ^ error control-character: Invisible control character U+0007
`),
    good: lamp,
  },
  'too-deep': {
    title: syntaxProblems['too-deep'],
    explanation:
      'Values stand inside one another more than a hundred levels deep. No file of these needs more than ten; a bracket was repeated.',
    bad: system(`
title: ${'['.repeat(101)}${']'.repeat(101)}
#${' '.repeat(106)}^ error too-deep: Values are nested more than 100 levels deep
`),
    good: lamp,
  },
  'unknown-alias': {
    title: syntaxProblems['unknown-alias'],
    explanation: `
A word with \`*\` before it stands for a value that was marked with \`&\` and the same word further up. There is no such mark. Write
the value itself, or put the text in quotes if the star belongs to it.`,
    bad: system(`
title: *lamp
#      ^^^^^ error unknown-alias: \`*lamp\` refers to nothing above it
`),
    good: lamp,
  },
  'cyclic-alias': {
    title: syntaxProblems['cyclic-alias'],
    explanation: 'The value refers to itself, so it would never end. Write what is meant instead of the reference.',
    bad: system(`
conditions: { key: &key [off, *key] }
#                             ^^^^ error cyclic-alias: \`*key\` stands inside the value it refers to
`),
    good: system('conditions: { key: [off, run] }\n'),
  },
  'too-many-aliases': {
    title: syntaxProblems['too-many-aliases'],
    explanation: `
Values that refer to values that refer to values grow without bounds. The file is not read further, so that the editor stays at hand.
Write the values where they are needed.`,
    bad: system(`
a: &a [x, x]
b: &b [${Array(10).fill('*a').join(', ')}]
c: &c [${Array(10).fill('*b').join(', ')}]
d: &d [${Array(10).fill('*c').join(', ')}]
e: &e [${Array(10).fill('*d').join(', ')}]
f: [${Array(10).fill('*e').join(', ')}]
#       ^^ error too-many-aliases: References grow beyond 100000 values
`),
    good: lamp,
  },
  'merge-key': {
    title: syntaxProblems['merge-key'],
    explanation: `
\`<<\` copies entries from elsewhere, and different readers of YAML do it in different ways. What differs between variants is written
with \`by variant\`; what several systems share stands in a file of its own that they include.`,
    bad: system(`
conditions:
  <<: { key: [off, run] }
# ^^ error merge-key: Entries cannot be copied with \`<<\`
`),
    good: system('conditions:\n  key: [off, run]\n'),
  },
  'tag-without-meaning': {
    title: syntaxProblems['tag-without-meaning'],
    explanation:
      'A word with `!` before it tells other programs what kind of value follows. Here every value is text as written. Delete it.',
    bad: system(`
title: !!str Lamp
#      ^^^^^ error tag-without-meaning: Tag \`!!str\` has no meaning here
`),
    good: lamp,
  },
  'misplaced-mark': {
    title: syntaxProblems['misplaced-mark'],
    explanation:
      'A word with `&` or `!` belongs directly before one value. Here stands none, or the value has one already. Delete it, or put the text in quotes.',
    bad: system(`
title: &a &b Lamp
#         ^^ error misplaced-mark: \`&b\` cannot stand here
`),
    good: lamp,
  },
  'unreadable-text': {
    title: syntaxProblems['unreadable-text'],
    explanation:
      'What stands here is no name, no value and no comment. Mostly a quote, a dash or a colon is missing nearby.',
    bad: system(`
conditions: &all { key: [off, run] }
title: *all lamps
#           ^^^^^ error unreadable-text: \`lamps\` cannot stand here
`),
    good: lamp,
  },
});
