import { lampProcedure } from '../example.ts';
import { stageRules, system } from './stage.ts';

/** Keys and values that are not where the shape of the file wants them. */
export const shapeMistakes = stageRules({
  'unknown-key': {
    title: 'A key that means nothing here',
    explanation: `
The entry has a key that is not known at this place. Mostly it is misspelt, or it belongs to another kind of part or step. A
quick fix writes the key that is nearly right.`,
    bad: system(`
parts:
  F1: { kind: fuse, ratng: 10 A }
#                   ^^^^^ error unknown-key: \`ratng\` is not a key of a fuse [fix]
`),
    good: system(`
parts:
  F1: { kind: fuse, rating: 10 A }
`),
  },
  'missing-key': {
    title: 'Something that must be said is not',
    explanation: `
The entry leaves out a key without which it means nothing, or a value stands where a name should be. The message names what is
missing; a quick fix adds the key.`,
    bad: system(`
parts:
  F1: { kind: fuse }
# ^^ error missing-key: \`F1\` has no \`rating\` [fix]
`),
    good: system(`
parts:
  F1: { kind: fuse, rating: 10 A }
`),
  },
  'conflicting-keys': {
    title: 'Two keys that exclude each other',
    explanation: `
Each of the two keys says in another way what the entry is, so only one can hold. Keep one of them.`,
    bad: system(`
conditions:
  oil: { states: [cold, warm], from: 0 °C, to: 90 °C }
#                              ^^^^ error conflicting-keys: \`from\` cannot stand beside \`states\`
`),
    good: system(`
conditions:
  oil: { states: [cold, warm] }
`),
  },
  'wrong-shape': {
    title: 'A text where keys belong, or the other way round',
    explanation: `
At this place stands a text, a list or a map of keys, and another of the three is wanted. The message says which, and the help
shows how it is written.`,
    bad: system(`
parts:
  F1: 10 A
#     ^^^^ error wrong-shape: \`F1\` takes keys with values, not text
`),
    good: system(`
parts:
  F1: { kind: fuse, rating: 10 A }
`),
  },
  'wrong-count': {
    title: 'Too few or too many entries',
    explanation: `
The list has fewer or more entries than make sense here. A condition, for example, has at least one state.`,
    bad: system(`
conditions:
  key: []
# ^^^ error wrong-count: \`key\` takes at least 1 entry, not 0
`),
    good: system(`
conditions:
  key: [off, run]
`),
  },
  'empty-value': {
    title: 'A key without its value',
    explanation: `
Behind the colon nothing is written yet, so the key says nothing. Write the value, or delete the key.`,
    bad: system(`
parts:
  F1: { kind: fuse, rating: }
#                   ^^^^^^ error empty-value: \`rating\` has no value yet
`),
    good: system(`
parts:
  F1: { kind: fuse, rating: 10 A }
`),
  },
  'unknown-kind': {
    title: 'A kind of part that is not known',
    explanation: `
The kind decides which terminals and keys a part has. This one is not known. A quick fix writes the kind that is nearly right.
What is not electrical is an \`item\`.`,
    bad: system(`
parts:
  F1: { kind: fues, rating: 10 A }
#             ^^^^ error unknown-kind: \`fues\` is not a kind of part [fix]
`),
    good: system(`
parts:
  F1: { kind: fuse, rating: 10 A }
`),
  },
  'unknown-value': {
    title: 'A word that is not among those that can stand here',
    explanation: `
At this place one of a few words is wanted, and this is none of them. The message or the help lists them.`,
    bad: system(`
parts:
  Y1: { kind: coil, resistance: 9 Ω, hazard: [hott] }
#                                             ^^^^ error unknown-value: \`hott\` is not a kind of hazard [fix]
`),
    good: system(`
parts:
  Y1: { kind: coil, resistance: 9 Ω, hazard: [hot] }
`),
  },
  'wrong-format-version': {
    title: 'A file for a later release',
    explanation: `
\`format\` is the version of the language in which the file is written. This release does not know that version, so it does not
guess. Update, or write \`format: 1\` if the file is an old one.`,
    bad: `
format: 2
#       ^ error wrong-format-version: This release reads \`format\` up to 1, and the file says \`2\`
system: lamp
`,
    good: `
format: 1
system: lamp
`,
  },
  'no-action': {
    title: 'A step without an action',
    explanation: `
A step does one thing: it inspects, operates, measures, reads, records, asks or gives an instruction. This one says only what comes
next. An ending, in the same way, says what it is. Write one of \`inspect\`, \`operate\`, \`measure\`, \`read\`, \`record\`,
\`ask\` or \`do\`.`,
    bad: lampProcedure(`
steps:
  look: { title: Look at the lamp, then: not-found }
# ^^^^ error no-action: \`look\` has no action
endings:
  not-found: { no fault: The lamp is bright }
`),
    good: lampProcedure(`
steps:
  look: { do: Look at the lamp, then: not-found }
endings:
  not-found: { no fault: The lamp is bright }
`),
  },
  'more-than-one-action': {
    title: 'A step with two actions',
    explanation: `
A step does one thing, so that its answers belong to that. Split it into two steps, the first leading to the second.`,
    bad: lampProcedure(`
steps:
  look: { inspect: [W4], ask: Is it warm?, then: { yes: ask-the-maker, no: not-found } }
#                        ^^^ error more-than-one-action: \`ask\` is a second action beside \`inspect\`
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
    good: lampProcedure(`
steps:
  look: { ask: Is it warm?, then: { yes: ask-the-maker, no: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  },
});
