import type { Rule } from '../rule.ts';

export const noSystem: Rule = {
  id: 'no-system',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A procedure that applies to no system',
  explanation: `
Without a system file nothing is known about the machine: whether the points exist, what the circuit shows there, which variants
there are. Only the structure of the steps can be checked.

Add \`applies to\` with the name of the system file and the variants: \`applies to: { lamp.system.yaml: all }\`.`,
  bad: `
format: 1
procedure: lamp-dark
#<------- warning no-system: The procedure applies to no system
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`,
  good: `
format: 1
procedure: lamp-dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`,
  *check({ procedure }) {
    const place = procedure.keys.get('procedure');
    if (!place || procedure.keys.has('applies to')) return;
    yield {
      rule: 'no-system',
      place,
      message: 'The procedure applies to no system',
      detail: 'Points, conditions and limits cannot be checked without one.',
      help: 'Add `applies to` with the name of a system file and its variants.',
    };
  },
};
