import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';

export const deadBranch: Rule = {
  id: 'dead-branch',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  title: 'A branch that leads nowhere',
  explanation: `
The answer is written, but not where it leads. A technician who gives this answer is left without an instruction.

Write the name of a step or of an ending behind it.`,
  bad: lampProcedure(`
steps:
  look:
    inspect: [W4]
    then:
      damage found: ask-the-maker
      all sound:
#     ^^^^^^^^^ error dead-branch: Answer \`all sound\` leads nowhere
endings:
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look:
    inspect: [W4]
    then:
      damage found: ask-the-maker
      all sound: not-found
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check: inEachStep(function* (data, step) {
    for (const { key, target, match } of data.branches) {
      if (target !== undefined) continue;
      yield {
        rule: 'dead-branch',
        place: key.place,
        message: `${match.on === 'answer' ? 'Answer' : 'Branch'} \`${key.text}\` leads nowhere`,
        detail: `In step \`${step.id}\` no step and no ending is named for it.`,
        help: 'Write behind it the step or the ending that it leads to.',
      };
    }
  }),
};
