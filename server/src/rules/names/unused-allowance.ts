import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';

export const unusedAllowance: Rule = {
  id: 'unused-allowance',
  severity: 'warning',
  group: 'names',
  on: 'stage',
  title: 'An allowance that silences nothing',
  explanation: `
\`allow\` takes a finding out of the list, with the reason. Here there is nothing left to take out: it was corrected, or the name of
the step has changed. Left behind, the allowance would silently hide the next finding of its kind.

Delete it.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
allow:
  single-answer: { in: [look], because: Nothing else can be seen there }
#                       ^^^^ warning unused-allowance: There is no \`single-answer\` in \`look\` to allow
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { all sound: not-found } }
endings:
  not-found: { no fault: The lamp is bright }
allow:
  single-answer: { in: [look], because: Nothing else can be seen there }
`),
};
