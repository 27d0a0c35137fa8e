import type { Rule } from '../rule.ts';

export const noSymptom: Rule = {
  id: 'no-symptom',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A procedure that starts from nothing',
  explanation: `
A technician looks for a procedure by what the customer says or by a trouble code. This one names neither, so nobody will find it
when it is needed.

Add \`starts from\` with at least one \`symptom\` or \`code\`.`,
  bad: `
format: 1
procedure: lamp-dark
#<------- warning no-symptom: The procedure names no symptom and no code
applies to: { lamp.system.yaml: all }
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
    // An empty key is told about by the shape of the file.
    const place = procedure.keys.get('procedure');
    if (!place || procedure.keys.has('starts from')) return;
    yield {
      rule: 'no-symptom',
      place,
      message: 'The procedure names no symptom and no code',
      detail: 'A technician finds a procedure by the complaint or by a trouble code.',
      help: 'Add `starts from` with a `symptom` or a `code`.',
    };
  },
};
