import { stageRules, system } from './stage.ts';

/** Values that can be read, and that the part cannot have. */
export const partMistakes = stageRules({
  'impossible-part-value': {
    title: 'A value that the part cannot have',
    explanation: `
The behaviour of a part is worked out from its values, and some cannot be: a load without any resistance would take any current, a lamp is
brighter and not darker with less resistance while it is cold, a motor that turns takes less than one that is held fast, a battery is
charged between 0 % and 100 %. The part then counts as not computed; everything else still is.`,
    bad: system(`
parts:
  E1: { kind: lamp, power: 21 W, voltage: 12 V, cold resistance: 6.9 Ω }
#                                                                ^^^^^ error impossible-part-value: Cold it cannot have as much as lit, 6.86 Ω
`),
    good: system(`
parts:
  E1: { kind: lamp, power: 21 W, voltage: 12 V, cold resistance: 0.6 Ω }
`),
  },
  'battery-without-voltage': {
    title: 'A battery of which no voltage is known',
    explanation: `
A battery gives the voltage that is stated, or that of a lead-acid battery by its cells and its charge. Of this one neither is known, so that
nothing it feeds is computed.`,
    bad: system(`
parts:
  G1: { kind: battery, title: Starter battery }
# ^^ error battery-without-voltage: \`G1\` says neither its voltage nor its cells
`),
    good: system(`
parts:
  G1: { kind: battery, title: Starter battery, cells: 6, charge: 75 % .. 100 % }
`),
  },
});
