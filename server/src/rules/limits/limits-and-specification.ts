import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

export const limitsAndSpecification: Rule = {
  id: 'limits-and-specification',
  severity: 'error',
  group: 'limits',
  on: 'procedure',
  title: 'A step with limits of its own and a specification',
  explanation: `
The step states its limits and names a row of a table as well. When the table is corrected one day, the two will say different
things, and nobody knows which one holds.

Keep one of them: \`specification\` where the table has the value, \`limits\` where the step needs its own.`,
  bad: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    specification: lamp-ohms/cold
    limits: 9 Ω .. 11 Ω
#           ^^^^^^^^^^^ error limits-and-specification: \`look\` has limits and a specification
    then:
      within: not-found
      otherwise: ask-the-maker
endings:
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
  not-found: { no fault: The lamp is bright, connect: [X1] }
`),
  good: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    specification: lamp-ohms/cold
    then:
      within: not-found
      otherwise: ask-the-maker
endings:
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
  not-found: { no fault: The lamp is bright, connect: [X1] }
`),
  check: inEachStep(function* ({ action }, step) {
    if (action.verb !== 'measure' || !action.limits || !action.specification) return;
    yield {
      rule: 'limits-and-specification',
      place: action.limits.place,
      message: `${name(step.id)} has limits and a specification`,
      detail: `The limits hold here, and what ${name(action.specification.text)} says is passed over.`,
      help: 'Keep one of them.',
      related: [{ place: action.specification.place, message: 'The specification stands here' }],
    };
  }),
};
