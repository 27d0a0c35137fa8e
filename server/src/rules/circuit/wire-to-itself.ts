import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

const system = (wire: string) => `#- /lamp.system.yaml
format: 1
system: lamp
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: G1.+ to E1.1, red
  - W2: G1.- to GND-1, black
${wire}`;

export const wireToItself: Rule = {
  id: 'wire-to-itself',
  severity: 'error',
  group: 'circuit',
  on: 'system',
  title: 'A wire whose two ends are one point',
  explanation: `
Both ends of this wire are written at the same point, so it joins nothing, and where it should lead the machine has a wire that the list does not.
Mostly a line was copied and one of its ends left as it was.

Write the other end as it is on the drawing.`,
  bad: system(`  - W3: E1.2 to E1.2, black
#               ^^^^ error wire-to-itself: \`W3\` leads from \`E1.2\` to itself
`),
  good: system('  - W3: E1.2 to GND-1, black\n'),
  *check({ system: { wires } }) {
    for (const { id, from, to } of wires) {
      if (!from || !to || from.text !== to.text) continue;
      yield {
        rule: 'wire-to-itself',
        place: to.place,
        message: `${name(id)} leads from ${name(to.text)} to itself`,
        detail: 'It joins nothing, and the point at which it should end is not wired by it.',
        help: 'Correct one of its ends.',
      };
    }
  },
};
