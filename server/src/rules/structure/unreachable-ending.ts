import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { unreached } from './unreached.ts';

export const unreachableEnding: Rule = {
  id: 'unreachable-ending',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'An ending that no branch leads to',
  explanation: `
The procedure lists a repair or another ending, but no branch of any step leads to it. Often this is a fault that the author
knows about and that the steps can never find.

Lead a branch to the ending, or delete it.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  elsewhere: { refer: Ask the dealer }
# ^^^^^^^^^ warning unreachable-ending: Ending \`elsewhere\` can never be reached
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  *check(view) {
    for (const { name } of unreached(view)) {
      const ending = view.procedure.endings.get(name);
      if (!ending) continue;
      yield {
        rule: 'unreachable-ending',
        place: ending.place,
        message: `Ending \`${name}\` can never be reached`,
        detail: 'No branch of any step leads to it, so no technician will ever come to this conclusion.',
        help: 'Name it as the target of a branch, or delete it.',
      };
    }
  },
};
