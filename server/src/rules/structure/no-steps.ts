import type { Rule } from '../rule.ts';

export const noSteps: Rule = {
  id: 'no-steps',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A procedure without steps',
  explanation: `
There is nothing to do in this procedure yet.

Add \`steps\` with the first step: mostly an \`inspect\` step, because looking costs least.`,
  bad: `
format: 1
procedure: lamp-dark
#<------- error no-steps: The procedure has no steps
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
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
    if (!place || procedure.keys.has('steps')) return;
    yield {
      rule: 'no-steps',
      place,
      message: 'The procedure has no steps',
      detail: 'A technician who opens it has nothing to do.',
      help: 'Add `steps`, `start` with the name of the first one, and `endings`.',
    };
  },
};
