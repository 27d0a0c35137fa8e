import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { named } from '../wording.ts';
import { whereReading } from './step-problems.ts';

export const notComputed: Rule = {
  id: 'reading-not-computed',
  severity: 'information',
  group: 'circuit',
  on: 'procedure',
  title: 'A reading that this release cannot compute',
  explanation: `
A part with a say in this reading is of a kind whose behaviour is not computed yet (a diode, a thermistor, a potentiometer and others), or it
lacks the values for it, or the meter is a test lamp. The limits of this step are therefore not held against the circuit.

Nothing is wrong with the step. Check its limits by hand; missing values can be added in the system file.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: test lamp
#   ^^^^^^^ information reading-not-computed: The circuit does not say what is read here
    red: E1.1
    black: GND-1
    then: { lit: not-found, dark: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  check: whereReading('not computed', ({ data }, [{ reading }]) => ({
    rule: 'reading-not-computed',
    place: data.actionPlace,
    message: 'The circuit does not say what is read here',
    detail: `What ${named(reading.parts.map(p => p.replace(/^the /, '')))} does to this reading is not computed, so the limits are not checked.`,
    help: 'Check the limits by hand.',
  })),
};
