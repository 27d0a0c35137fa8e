import { stageRules, system } from './stage.ts';

/** Written quantities that cannot be read. */
export const quantityMistakes = stageRules({
  'missing-value': {
    title: 'A number is missing',
    explanation: `
A value begins with a number, and here stands none. Write the number with its unit, for example \`12.6 V\` or \`4.7 kΩ ± 5 %\`.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: Ω }
#                                   ^ error missing-value: A number is expected, not \`Ω\`
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
`),
  },
  'unreadable-number': {
    title: 'Digits that make no number',
    explanation: `
A number has digits and at most one decimal sign. Here the points or commas cannot be understood.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 1.2.3.4 Ω }
#                                   ^^^^^^^ error unreadable-number: \`1.2.3.4\` cannot be read as a number
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
`),
  },
  'ambiguous-number': {
    title: 'A comma that can be read in two ways',
    explanation: `
\`1,234\` is one thousand two hundred and thirty-four to some and a little more than one to others. In a limit the difference is a
factor of thousand, so it is not guessed. Write it without the comma, or with a decimal point.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: "1,234 Ω" }
#                                    ^^^^^ error ambiguous-number: \`1,234\` can be read in two ways
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 1234 Ω }
`),
  },
  'missing-unit': {
    title: 'A number without its unit',
    explanation: `
A bare number can mean ohms or kilohms, millimetres or metres. Write the unit behind it.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 10 }
#                                   ^^ error missing-unit: The unit is missing after \`10\` [fix]
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
`),
  },
  'unknown-unit': {
    title: 'A unit that is not known',
    explanation: `
The unit behind the number is not known. Write it as on a test sheet: \`V\`, \`mV\`, \`Ω\` or \`ohm\`, \`kΩ\` or \`k\`, \`A\`, \`mm²\`, \`AWG\`.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 10 homs }
#                                      ^^^^ error unknown-unit: \`homs\` is not a known unit
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
`),
  },
  'unit-case': {
    title: 'A unit in the wrong case',
    explanation: `
Capital and small letters are different units: \`mΩ\` and \`MΩ\` are nine powers of ten apart. A quick fix writes the unit as it
must be.`,
    bad: system(`
parts:
  G1: { kind: supply, voltage: 5 v, internal resistance: 1 Ω }
#                                ^ error unit-case: \`v\` is not read as a unit; \`V\` is [fix]
`),
    good: system(`
parts:
  G1: { kind: supply, voltage: 5 V, internal resistance: 1 Ω }
`),
  },
  'unexpected-text': {
    title: 'A word behind a value',
    explanation: `
The value is complete, and a word follows that is no part of it. A remark belongs into a comment or into \`title\`.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω about }
#                                        ^^^^^ error unexpected-text: \`about\` is not expected after \`10 Ω\`
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
`),
  },
  'missing-end': {
    title: 'A range with one end',
    explanation: `
Between two ends stand two dots, and one of the ends is missing. A range that is open at one end is written with a word: \`at
least 4.7 V\`, \`below 0.3 V\`.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 9 Ω .. }
#                                       ^^ error missing-end: The upper end of the range is missing
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 9 Ω .. 11 Ω }
`),
  },
  'range-mark': {
    title: 'The ends of a range are not parted by two dots',
    explanation: `
A dash can be a minus, so the two ends of a range are parted by \`..\` and nothing else. A quick fix writes it.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 9 Ω - 11 Ω }
#                                       ^ error range-mark: The ends of a range are parted by \`..\`, not by \`-\` [fix]
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 9 Ω .. 11 Ω }
`),
  },
  'inverted-range': {
    title: 'A range that begins with its higher end',
    explanation: `
The lower end of a range stands first, as on a test sheet. A quick fix swaps the two.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 11 Ω .. 9 Ω }
#                                   ^^^^ error inverted-range: The range begins with its higher end: \`11 Ω .. 9 Ω\` [fix]
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 9 Ω .. 11 Ω }
`),
  },
  'nominal-outside-range': {
    title: 'A nominal value outside its own range',
    explanation: `
The value before the range should lie in it, so one of the three numbers is wrong. Correct it.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 12 Ω (9 Ω .. 11 Ω) }
#                                   ^^^^ error nominal-outside-range: \`12 Ω\` lies outside its range \`9 Ω .. 11 Ω\`
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω (9 Ω .. 11 Ω) }
`),
  },
  'below-zero': {
    title: 'A value that cannot be below zero',
    explanation: `
A resistance, a length or a time cannot be negative, and no temperature lies below absolute zero.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: -10 Ω }
#                                   ^^^ error below-zero: A resistance cannot be \`-10 Ω\`
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
`),
  },
  'wide-tolerance': {
    title: 'A tolerance wider than the value',
    explanation: `
With this tolerance the value could be zero or negative. Mostly a digit slipped. Correct it.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 120 % }
#                                          ^^^^^ error wide-tolerance: The tolerance \`120 %\` is wider than the value itself
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 12 % }
`),
  },
  'negative-tolerance': {
    title: 'A tolerance with the wrong sign',
    explanation: `
A tolerance goes to both sides, so it has no sign of its own. With two signs the upper one comes first: \`+5 % -10 %\`.`,
    bad: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± -5 % }
#                                          ^^^^ error negative-tolerance: The tolerance \`-5 %\` has the wrong sign [fix]
`),
    good: system(`
parts:
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
`),
  },
  'percent-of-zero': {
    title: 'A percentage of zero',
    explanation: `
Five per cent of nothing is nothing. Write the tolerance in the unit of the value.`,
    bad: system(`
parts:
  G1: { kind: supply, voltage: 0 V ± 5 %, internal resistance: 1 Ω }
#                                    ^^^ error percent-of-zero: \`5 %\` of \`0 V\` is nothing
`),
    good: system(`
parts:
  G1: { kind: supply, voltage: 0 V ± 0.1 V, internal resistance: 1 Ω }
`),
  },
  'unknown-wire-size': {
    title: 'A wire size that does not exist',
    explanation: `
Sizes are given as an area (\`0.75 mm²\`) or as an American gauge from 4/0 to 40 (\`18 AWG\`).`,
    bad: system(`
parts:
  FL1: { kind: fusible link, size: 75 AWG, length: 0.2 m }
#                                  ^^^^^^ error unknown-wire-size: \`75 AWG\` is not a wire gauge
`),
    good: system(`
parts:
  FL1: { kind: fusible link, size: 14 AWG, length: 0.2 m }
`),
  },
});
