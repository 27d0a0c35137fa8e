import { circleInWords } from '../../analysis/words/reading.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { named } from '../wording.ts';
import { circumstances } from './judged.ts';
import { whereReading } from './step-problems.ts';

const buzzer = `#- /buzzer.system.yaml
format: 1
system: buzzer
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S1: { kind: switch, closed: { key: run } }
  K1: { kind: relay, coil: 85 Ω ± 10 %, pull-in: 8 V, drop-out: 1.5 V }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: G1.+ to S1.1, red
  - W2: S1.2 to K1.30, red
  - W3: K1.87a to K1.86, yellow
  - W4: K1.85 to GND-1, black
  - W5: G1.- to GND-1, black
`;

export const doesNotSettle: Rule = {
  id: 'system-does-not-settle',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'Relays or operating rules that undo their own cause',
  explanation: `
Under the conditions of this step a relay, a module's power or an operating rule switches off what keeps it on, and then comes on again: the
system buzzes and there is no reading to compare with. Mostly a wire in the system file is at the wrong contact, or a rule lacks a condition.`,
  bad: `${lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
#   ^^^^^^^ error system-does-not-settle: \`K1\` undoes its own cause here
    red: K1.86 (back-probe)
    black: GND-1
    limits: 11 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The buzzer sounds }
  ask-the-maker: { refer: Ask the maker }
`)
    .replace('lamp.system', 'buzzer.system')
    .replace(/^\n/, '#- /buzzer.procedure.yaml\n')}${buzzer}`,
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
  check: whereReading('not settled', ({ view, data }, [first, ...rest]) => ({
    rule: 'system-does-not-settle',
    place: data.actionPlace,
    message: `${named(first.reading.names)} ${first.reading.names.length === 1 ? 'undoes its' : 'undo their'} own cause here`,
    detail: `${circumstances([first, ...rest], view)} ${circleInWords(first.reading.circle)}; there is no reading.`,
    help: 'Correct the wiring or the rules in the system file.',
  })),
};
