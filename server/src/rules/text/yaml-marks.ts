import { syntaxProblems } from '../../syntax/problems.ts';
import { stageRules, system } from './stage.ts';

const lamp = system('title: Lamp\n');

/** Brackets, quotes, commas and other marks of YAML that are missing, or stand where none can. */
export const yamlMarks = stageRules({
  'unclosed-bracket': {
    title: syntaxProblems['unclosed-bracket'],
    explanation: `
A list in \`[ ]\` or a map in \`{ }\` was opened and not closed before the next entry begins. What belongs inside is not certain.

Write the closing bracket. Longer lists read better with one item a line, each with a dash.`,
    bad: system(`
conditions: { key: [off, run }
#                  ^ error unclosed-bracket: \`[\` is not closed
`),
    good: system('conditions: { key: [off, run] }\n'),
  },
  'stray-bracket': {
    title: syntaxProblems['stray-bracket'],
    explanation:
      'A closing bracket stands here, and none that it could close is open. Delete it, or write the opening one.',
    bad: system(`
conditions:
  key: [off, run]]
#                ^ error stray-bracket: \`]\` closes nothing
`),
    good: system('conditions:\n  key: [off, run]\n'),
  },
  'bracket-holds-block': {
    title: syntaxProblems['bracket-holds-block'],
    explanation: `
Between \`[\` and \`]\` the items are parted by commas. Lines that begin with a dash are the other way to write a list, and the two
cannot be mixed. Delete the brackets, or put commas instead of the dashes.`,
    bad: system(`
includes: [
  - feed.system.yaml
# ^ error bracket-holds-block: \`-\` stands inside brackets
]
`),
    good: system('variants: {\n  plain: Without a dimmer,\n  dimmed: With a dimmer\n}\n'),
  },
  'missing-comma': {
    title: syntaxProblems['missing-comma'],
    explanation:
      'Inside `[ ]` and `{ }` a comma stands between two values. Without it they are not told apart. Write the comma.',
    bad: system(`
conditions: { key: ["off" "run"] }
#                         ^^^^^ error missing-comma: Comma missing before \`"run"\`
`),
    good: system('conditions: { key: ["off", "run"] }\n'),
  },
  'extra-comma': {
    title: syntaxProblems['extra-comma'],
    explanation:
      'A comma parts two values, and there is no value before this one. Delete the comma, or write what is missing.',
    bad: system(`
variants: { plain: Without a dimmer,, dimmed: With a dimmer }
#                                   ^ error extra-comma: Comma with nothing before it
`),
    good: system('variants: { plain: Without a dimmer, dimmed: With a dimmer }\n'),
  },
  'unclosed-quote': {
    title: syntaxProblems['unclosed-quote'],
    explanation: `
A text begins with a quote and does not end with one, so everything behind it would belong to the text. Write the closing quote. Most
texts need no quotes at all.`,
    bad: system(`
title: "Lamp
#      ^ error unclosed-quote: Double quote is opened here and not closed
`),
    good: lamp,
  },
  'text-after-value': {
    title: syntaxProblems['text-after-value'],
    explanation: `
Behind a closing quote or bracket the value is complete, and nothing may follow on the line but a comma or a comment. Put the whole
text in quotes, or delete what follows.`,
    bad: system(`
title: "Lamp" of the trailer
#             ^^ error text-after-value: \`of\` stands behind a closing quote
`),
    good: system('title: Lamp of the trailer\n'),
  },
  'unknown-escape': {
    title: syntaxProblems['unknown-escape'],
    explanation: `
In double quotes a backslash changes the meaning of the next character, and this pair means nothing. Write two backslashes where one
is meant, or use single quotes, in which a backslash is a plain character.`,
    bad: system(`
title: "Lamp \\q"
#            ^^ error unknown-escape: \`\\q\` has no meaning inside double quotes
`),
    good: system("title: 'Lamp \\q'\n"),
  },
  'colon-in-text': {
    title: syntaxProblems['colon-in-text'],
    explanation: `
A colon with a blank behind it parts a name from its value. In a text without quotes a second one is not understood. Put the text in
quotes, or write a dash or a comma instead of the colon.`,
    bad: system(`
title: Lamp: with dimmer
#      ^^^^^^^^^^^^^^^^^ error colon-in-text: Text with a colon and a blank in it needs quotes
`),
    good: system('title: "Lamp: with dimmer"\n'),
  },
  'needs-quotes': {
    title: syntaxProblems['needs-quotes'],
    explanation: `
Some characters have a meaning of their own in YAML when a text begins with them, among them \`@\`, \`%\`, \`|\`, \`>\` and a backtick.
Put the text in quotes. A limit can be written with a word instead: \`above 4.4 V\`.`,
    bad: system(`
title: @ the trailer
#      ^ error needs-quotes: Text that begins with \`@\` needs quotes
`),
    good: system('title: "@ the trailer"\n'),
  },
  'comment-without-blank': {
    title: syntaxProblems['comment-without-blank'],
    explanation:
      'A comment needs a blank before its `#`. Directly behind a value it is not known whether a comment is meant. Write a blank.',
    bad: system(`
title: "Lamp"# of the trailer
#            ^ error comment-without-blank: Comment begins directly behind a value
`),
    good: system('title: "Lamp" # of the trailer\n'),
  },
  'missing-blank': {
    title: syntaxProblems['missing-blank'],
    explanation: `
A colon parts a name from its value only with a blank behind it, and a dash begins an item only with one. Without the blank the whole
line is one long name. Write the blank.`,
    bad: system(`
title:Lamp
#    ^ error missing-blank: Blank missing behind the colon in \`title:Lamp\`
`),
    good: lamp,
  },
  'missing-colon': {
    title: syntaxProblems['missing-colon'],
    explanation:
      'A name and its value are parted by a colon and a blank. Here the colon is missing, so it is not known where the name ends.',
    bad: system(`
conditions
#<-------- error missing-colon: \`conditions\` has no colon
  key: [off, run]
`),
    good: system('conditions:\n  key: [off, run]\n'),
  },
});
