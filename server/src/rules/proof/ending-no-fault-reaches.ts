import { existsIn } from '../../model/common.ts';
import type { Rule } from '../rule.ts';
import { unreached } from '../structure/unreached.ts';
import { name } from '../wording.ts';
import { heaterBut } from './example.ts';
import { walksIn } from './proved.ts';

export const endingNoFaultReaches: Rule = {
  id: 'ending-no-fault-reaches',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'An ending that no fault comes to',
  explanation: `
There is a way to this ending in the text, but no fault of the system, and no good machine, takes it: the readings on the way contradict each
other, or an earlier step has caught all that could come here.

Delete the ending with the branch that leads to it, or correct the readings before it. Where a fault is meant that the system file does not
have, add it there under \`faults\`.`,
  bad: heaterBut(
    [
      '  look:\n',
      `  look:
    inspect: [S1]
    then: { handle broken off: { go to: the-switch, shows: [S1 stuck closed] }, all sound: volts }
  volts:
`,
    ],
    [
      '  done: {',
      `  the-switch: { replace: [S1], confirm: confirm }
# ^^^^^^^^^^ information ending-no-fault-reaches: No fault and no good machine comes to \`the-switch\`
  done: {`,
    ],
  ),
  good: heaterBut(
    [
      '  look:\n',
      `  look:
    inspect: [S1]
    then: { handle broken off: { go to: the-switch, shows: [S1 open] }, all sound: volts }
  volts:
`,
    ],
    [
      '  done: {',
      `  the-switch: { replace: [S1], confirm: confirm }
  done: {`,
    ],
  ),
  *check(view) {
    const walks = walksIn(view);
    if (walks.length === 0) return;
    // What no branch leads to is told already.
    const lost = new Set(unreached(view).flatMap(({ name, behind }) => [name, ...behind]));
    for (const ending of view.procedure.endings.values()) {
      if (lost.has(ending.id)) continue;
      if (!view.cases.some(({ variant }) => existsIn(ending, variant))) continue;
      if (walks.some(({ exploration }) => exploration.met.has(ending.id))) continue;
      yield {
        rule: 'ending-no-fault-reaches',
        place: ending.place,
        message: `No fault and no good machine comes to ${name(ending.id)}`,
        detail: 'Every fault that the system file allows was walked from every way in, in every variant.',
        help: 'Delete it with the branch that leads there, or correct the readings before it.',
      };
    }
  },
};
