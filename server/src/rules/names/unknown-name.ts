import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { unknownInProcedure } from './in-procedure.ts';
import { unknownInSamples } from './in-samples.ts';
import { unknownInSystem } from './in-system.ts';

export const unknownName: Rule = {
  id: 'unknown-name',
  severity: 'error',
  group: 'names',
  on: 'any',
  needsWholeFile: true,
  title: 'A name that nothing has',
  explanation: `
Here stands the name of a step, an ending, a part, a point, a wire, a connector, a condition, a state, a variant, scan data or a
specification, and there is none of this name. A technician would look for it in vain. Mostly it is a slip of the pen, or something
was renamed in one place only.

Correct the name; where one is nearly right, a quick fix writes it. If the thing is really missing, add it to the procedure or to the
system file.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4, W44], then: { damage found: ask-the-makr, all sound: not-found } }
#                       ^^^ error unknown-name: Nothing is called \`W44\`
#                                                   ^^^^^^^^^^^^ error unknown-name: No step or ending is called \`ask-the-makr\` [fix]
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check(view) {
    if (view.kind === 'procedure') return unknownInProcedure(view);
    if (view.kind === 'system') return unknownInSystem(view);
    return view.kind === 'samples' ? unknownInSamples(view) : [];
  },
};
