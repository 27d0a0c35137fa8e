import { existsIn } from '../../model/common.ts';
import type { Wire } from '../../model/system.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

const system = (second: string, mark = '') => `#- /lamp.system.yaml
format: 1
system: lamp
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
connectors:
  X1: { cavities: [1, 2] }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: G1.+ to E1.1 through X1/1, red
  - W2: E1.2 to GND-1 through ${second}, black
${mark}  - W3: G1.- to GND-1, black
`;

export const cavityTakenTwice: Rule = {
  id: 'cavity-taken-twice',
  severity: 'warning',
  group: 'circuit',
  on: 'system',
  title: 'Two wires in one cavity',
  explanation: `
A cavity holds one terminal. Two wires that pass the same one in the same variant are mostly a slip in the wiring list; they are computed as two
separate contacts. Where two wires really share a terminal, join them with a splice and lead one wire through the cavity.`,
  bad: system(
    'X1/1',
    '#                             ^^^^ warning cavity-taken-twice: `X1/1` already holds `W1`\n',
  ).replace('cavities: [1, 2]', 'cavities: [1]'),
  good: system('X1/2'),
  *check({ system: { variants, wires } }) {
    for (const variant of variants) {
      const taken = new Map<string, Wire>();
      for (const wire of wires.filter(w => existsIn(w, variant))) {
        for (const { text, place } of wire.through) {
          const first = taken.get(text);
          taken.set(text, first ?? wire);
          if (!first) continue;
          yield {
            rule: 'cavity-taken-twice',
            place,
            message: `${name(text)} already holds ${name(first.id)}`,
            detail: `${name(first.id)} and ${name(wire.id)} pass the same cavity.`,
            help: 'Correct the cavity, or join the wires with a splice.',
            related: [{ place: first.place, message: 'the first wire' }],
          };
        }
      }
    }
  },
};
