import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { asFinding, blamed, lastBranch } from './blame.ts';
import { heaterBut, soundHeater } from './example.ts';
import { badWalks } from './proved.ts';

export const goodPartCondemned: Rule = {
  id: 'good-part-condemned',
  severity: 'error',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A good machine that ends at a repair',
  explanation: `
A machine without any fault is walked through the procedure as well, for a technician may come to one: somebody was mistaken, or the fault
does not show today. It must end at *nothing wrong*. Here it ends at a repair, and a good part is replaced.

Look at the way that it takes: a limit that good machines miss, or a branch that leads to the wrong side.`,
  bad: heaterBut(
    [
      'within: not-found, otherwise: the-heater }\n',
      `within: the-heater, otherwise: around-it }
#                   ^^^^^^^^^^ error good-part-condemned: A good machine ends at the repair \`the-heater\`
`,
    ],
    ['  not-found: { no fault: The heater has its current }\n', ''],
  ),
  good: soundHeater,
  *check(view) {
    const walks = badWalks(view, ({ fault, worst }) => fault === undefined && worst.result === 'wrong part');
    for (const about of blamed(walks, walk => lastBranch(view, walk))) {
      const { end, specimen } = about.walks[0].worst;
      const ending = end.kind === 'ending' ? end.name : '';
      yield asFinding('good-part-condemned', view, about, {
        message: `A good machine ends at the repair ${name(ending)}`,
        detail: specimen
          ? 'Nothing is wrong with it.'
          : 'Nothing is wrong with it, whatever its values inside their tolerances are.',
        help: 'Correct the limit or the branch on its way that takes it there.',
      });
    }
  },
};
