import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

export const singleAnswer: Rule = {
  id: 'single-answer',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  title: 'A look or a question with one answer only',
  explanation: `
The step asks for an answer and lists only one. A technician who sees something else has no instruction.

Add the other answers. A step that nobody answers is an instruction: write it with \`do\`.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { all sound: not-found } }
#                                ^^^^^^^^^ warning single-answer: \`all sound\` is the only answer of \`look\`
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
  check: inEachStep(function* ({ action, branches }, step) {
    const [only] = branches;
    const asks = action.verb === 'inspect' || action.verb === 'ask' || action.verb === 'operate';
    if (!asks || branches.length !== 1 || only?.match.on !== 'answer' || !only.target) return;
    yield {
      rule: 'single-answer',
      place: only.key.place,
      message: `${name(only.key.text)} is the only answer of ${name(step.id)}`,
      detail: 'A technician who sees something else has no instruction.',
      help: 'Add the other answers.',
    };
  }),
};
