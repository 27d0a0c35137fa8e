import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

export const readingMakesNoDifference: Rule = {
  id: 'reading-makes-no-difference',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  title: 'A test whose result changes nothing',
  explanation: `
Whatever the technician reads or answers, the next step is the same. The test costs its minutes and tells nothing. Mostly one of the
branches was meant to lead elsewhere.

Lead one of the branches elsewhere, delete the step, or make it a plain instruction with \`do\`.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: not-found, all sound: not-found } }
#         ^^^^^^^ warning reading-makes-no-difference: Every branch of \`look\` leads to \`not-found\`
endings:
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check: inEachStep(function* ({ action, actionPlace, branches }, step) {
    const [first] = branches;
    const limited = (action.verb === 'measure' || action.verb === 'read') && action.limits !== undefined;
    const many = branches.length > 1 || (limited && first?.match.on === 'always');
    if (!first?.target || !many || action.verb === 'do') return;
    // A step that only leads to itself is told about as a circle.
    if (first.target.text === step.id) return;
    if (branches.some(b => b.target?.text !== first.target?.text || b.shows.length > 0)) return;
    yield {
      rule: 'reading-makes-no-difference',
      place: actionPlace,
      message: `Every branch of ${name(step.id)} leads to ${name(first.target.text)}`,
      detail: 'The technician goes on in the same way whatever comes out, so the time for the test is lost.',
      help: 'Lead a branch elsewhere, or delete the step.',
    };
  }),
};
