import { lampProcedure } from '../example.ts';
import { stageRules, system } from './stage.ts';

/** Lines with a small language of their own that cannot be read: wires, contacts, leads, a meter's accuracy. */
export const lineMistakes = stageRules({
  'unreadable-wire': {
    title: 'A line of the wiring list that cannot be read',
    explanation: `
A line of the list reads like one of a wiring table: from where to where, through which cavities, then size, length and colour, parted
by commas, and \`solid\` where its conductor is not stranded: \`W41: S6.1 to A1.14 through X12/3, 0.75 mm², 2.4 m, yellow/black\`. Behind that may stand \`beside W42\` and
\`only relay-fed\`. Here a piece is none of these, or the ends are missing.`,
    bad: system(`
splices: { SP1: At the lamp, SP2: At the switch }
wires:
  - W1: SP1 to SP2, 1.5 mm², 2 m, ylelow
#                                 ^^^^^^ error unreadable-wire: \`ylelow\` is no part of a wire line [fix]
`),
    good: system(`
splices: { SP1: At the lamp, SP2: At the switch }
wires:
  - W1: SP1 to SP2, 1.5 mm², 2 m, yellow
`),
  },
  'unreadable-contact': {
    title: 'A contact that does not name two terminals',
    explanation: `
A contact of a switch is named by the two terminals that it joins, with \`to\` between them, and behind it stands when it is closed:
\`C to F: forward\`.`,
    bad: system(`
parts:
  S7: { kind: switch, positions: [off, on], contacts: { C-F: on } }
#                                                       ^^^ error unreadable-contact: \`C-F\` does not name two terminals
`),
    good: system(`
parts:
  S7: { kind: switch, positions: [off, on], contacts: { C to F: on } }
`),
  },
  'unknown-curve': {
    title: 'A curve that is not known',
    explanation: `
Curves of standards are known by name: \`IEC 60751 Pt100\` for a platinum thermometer, \`type K\` for a thermocouple. Any other is given by
the values of its data sheet or as a table.`,
    bad: system(`
conditions: { oil: { from: 0 °C, to: 100 °C, rest: 20 °C } }
parts:
  B1: { kind: rtd, follows: oil, curve: { standard: IEC 60751 Pt10 } }
#                                                   ^^^^^^^^^^^^^^ error unknown-curve: \`IEC 60751 Pt10\` is no curve of a rtd [fix]
`),
    good: system(`
conditions: { oil: { from: 0 °C, to: 100 °C, rest: 20 °C } }
parts:
  B1: { kind: rtd, follows: oil, curve: { standard: IEC 60751 Pt100 } }
`),
  },
  'falling-table': {
    title: 'A table of voltage and current that falls, or does not pass zero',
    explanation: `
The current through any part of the language rises with its voltage, and is zero at 0 V. A table that falls or stays somewhere would let the
circuit have several answers, and one that drives current at 0 V would be a supply. Mostly two numbers are swapped or a sign is wrong.`,
    bad: system(`
parts:
  Z1: { kind: two-terminal, table: [{ at: 0 V, is: 0 A }, { at: 6 V, is: 1.1 A }, { at: 12 V, is: 0.8 A }] }
#                                                                                       ^^^^ error falling-table: The table of \`Z1\` falls here
`),
    good: system(`
parts:
  Z1: { kind: two-terminal, table: [{ at: 0 V, is: 0 A }, { at: 6 V, is: 0.8 A }, { at: 12 V, is: 1.1 A }] }
`),
  },
  'unreadable-lead': {
    title: 'A remark on a lead that is not understood',
    explanation: `
Behind the point of a lead may stand in brackets that it goes in from behind a mated plug, \`(back-probe)\`, or on which side of an open
plug it goes: \`(S6 side)\`, \`(part side)\`, \`(harness side)\`.`,
    bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1 (from behind)
#              ^^^^^^^^^^^ error unreadable-lead: \`from behind\` says nothing about a lead
    black: GND-1
    limits: at least 11.5 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
    good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1 (back-probe)
    black: GND-1
    limits: at least 11.5 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  },
  'unknown-accuracy': {
    title: 'An accuracy that is not written as in a data sheet',
    explanation: `
A data sheet gives the accuracy of a meter as a share of the reading plus some steps of the last digit: \`0.5 % + 2\`.`,
    bad: lampProcedure(`
meter: { voltage: { accuracy: good } }
#                             ^^^^ error unknown-accuracy: The accuracy of a meter is a share of the reading plus counts
steps:
  look: { do: Look at the lamp, then: not-found }
endings:
  not-found: { no fault: The lamp is bright }
`),
    good: lampProcedure(`
meter: { voltage: { accuracy: 0.5 % + 2 } }
steps:
  look: { do: Look at the lamp, then: not-found }
endings:
  not-found: { no fault: The lamp is bright }
`),
  },
});
