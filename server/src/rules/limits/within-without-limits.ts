import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import { addDerivedLimits } from '../fixes.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

export const withinWithoutLimits: Rule = {
  id: 'within-without-limits',
  severity: 'error',
  group: 'limits',
  on: 'procedure',
  title: 'A branch that refers to limits which are not there',
  explanation: `
\`within\`, \`below\` and \`above\` speak of the limits of the step, and this step has none. A technician cannot tell which readings are
meant.

Add \`limits\` with the range that a good system shows, or \`specification\` with the row of a table in the system file. A step that
reads a state from a module takes \`expect\`.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    then:
      within: not-found
#     ^^^^^^ error within-without-limits: There are no limits for \`within\` [fix]
      otherwise: ask-the-maker
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: at least 11.5 V
    then:
      within: not-found
      otherwise: ask-the-maker
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check: inEachStep(function* ({ action, branches }, step) {
    const has =
      (action.verb !== 'measure' && action.verb !== 'read') ||
      step.entry.value.kind !== 'map' ||
      step.entry.value.entries.some(e => ['limits', 'specification', 'expect'].includes(e.key.text)) ||
      action.limits !== undefined;
    const branch = branches.find(b => ['within', 'below', 'above'].includes(b.match.on));
    if (has || !branch) return;
    yield {
      rule: 'within-without-limits',
      place: branch.key.place,
      message: `There are no limits for ${name(branch.key.text)}`,
      detail: `${name(step.id)} does not say which reading a good system gives.`,
      help: 'Add `limits`, or `specification` with a row of a table in the system file.',
      fixes: addDerivedLimits(step, action),
    };
  }),
};
