import type { Rule } from '../rule.ts';
import { saysWhereItStarts } from './step-graph.ts';

export const missingEntry: Rule = {
  id: 'missing-entry',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A procedure that does not say where it starts',
  explanation: `
\`start\` names the step that a technician does first. Without it nobody can begin, and nothing can be said about which steps are
ever reached.

Add \`start\` with the name of the first step. A symptom or code that should begin elsewhere names its own \`start\` under
\`starts from\`.`,
  bad: `
format: 1
procedure: lamp-dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
steps:
#<--- error missing-entry: The procedure does not say where it starts [fix]
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
  *check({ procedure, uri }) {
    if (saysWhereItStarts(procedure) || procedure.steps.size === 0) return;
    const first = [...procedure.steps.keys()][0];
    const steps = procedure.keys.get('steps');
    const place = procedure.keys.get('start') ?? steps ?? procedure.keys.get('procedure');
    if (!place) return;
    const at = { uri, span: { ...place.span, end: place.span.start } };
    const insert = steps && first !== undefined && !procedure.keys.has('start');
    yield {
      rule: 'missing-entry',
      place,
      message: 'The procedure does not say where it starts',
      detail: 'A technician who opens it does not know which step comes first.',
      help: 'Add `start` with the name of the first step.',
      fixes: insert
        ? [
            {
              title: `Start at \`${first}\``,
              edits: [{ place: at, text: `start: ${first}${place.span.unit.text.includes('\r\n') ? '\r\n' : '\n'}` }],
            },
          ]
        : [],
    };
  },
};
