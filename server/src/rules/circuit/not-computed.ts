import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { named } from '../wording.ts';
import { whereReading } from './step-problems.ts';

export const notComputed: Rule = {
  id: 'reading-not-computed',
  severity: 'information',
  group: 'circuit',
  on: 'procedure',
  title: 'A reading that cannot be computed',
  explanation: `
A part with a say in this reading has no value under the conditions of this step, or one that is told as a mistake in the system file, or the
tolerances leave open what more relays, outputs or diodes do than can be looked at. The limits of this step are therefore not held
against the circuit.

Nothing is wrong with the step. Check its limits by hand; missing values can be added in the system file.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
#   ^^^^^^^ information reading-not-computed: The circuit does not say what is read here
    red: E1.1
    black: GND-1
    limits: 11 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
#- /lamp.system.yaml
format: 1
system: lamp
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: [{ when: { key: off }, is: 12.6 V ± 0.4 V }], internal resistance: 10 mΩ }
  S1: { kind: switch, closed: { key: run } }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: G1.+ to S1.1, red
  - W2: S1.2 to E1.1, yellow
  - W4: E1.2 to GND-1, black
  - W5: G1.- to GND-1, black
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
  check: whereReading(
    'not computed',
    ({ data, limit }, [{ reading }]) =>
      limit && {
        rule: 'reading-not-computed',
        place: data.actionPlace,
        message: 'The circuit does not say what is read here',
        detail: `What ${named(reading.parts)} does to this reading is not computed, so the limits are not checked.`,
        help: 'Check the limits by hand.',
      },
  ),
};
