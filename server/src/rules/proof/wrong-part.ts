import type { Finding, Rule } from '../rule.ts';
import { joined, name } from '../wording.ts';
import { asFinding, type Blamed, blamed, faultsInWords, lastBranch } from './blame.ts';
import { heaterBut, soundHeater } from './example.ts';
import { badWalks } from './proved.ts';

export const faultEndsAtWrongPart: Rule = {
  id: 'fault-ends-at-wrong-part',
  severity: 'warning',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A fault that ends at a repair which does not mend it',
  explanation: `
Every fault that the system file allows is walked through the procedure, with what the circuit shows at each step. This one comes to a repair of
something that is good: money is spent, and the machine comes back. The message names the likeliest fault, the places below it are the way that
it takes, and **Walk it in the preview** steps through that way.

Measure what tells the two apart before this branch, or let the repair name the part that is at fault as well.`,
  bad: heaterBut(
    [
      'within: not-found, otherwise: the-heater }\n',
      `within: not-found, otherwise: the-heater }
#                                         ^^^^^^^^^^ warning fault-ends-at-wrong-part: 4 faults end here at the wrong part, first \`H1.1 open\`
`,
    ],
    ['{ mend: [H1, W3, W4], ', '{ replace: [H1], '],
  ),
  good: soundHeater,
  *check(view) {
    const walks = badWalks(
      view,
      ({ fault, worst }) => fault !== undefined && worst.result === 'wrong part' && !worst.isUndecided,
    );
    for (const about of blamed(walks, walk => lastBranch(view, walk))) yield finding(about, view);
  },
};

function finding(about: Blamed, view: Parameters<typeof asFinding>[1]): Finding {
  const [{ worst, fault }] = about.walks;
  const { end } = worst;
  const items = end.kind === 'ending' ? end.data.items.map(({ text }) => text) : [];
  const mending = joined(
    fault!.mendedBy.map(one => name(one)),
    'or',
  );
  const ending = end.kind === 'ending' ? end.name : '';
  return asFinding('fault-ends-at-wrong-part', view, about, {
    message: faultsInWords(about, 'ends here at the wrong part', 'end here at the wrong part'),
    detail: `It comes to ${name(ending)}, which names ${joined(items.map(item => name(item)))}; what mends it is ${mending}.`,
    help: `Tell it apart by a measurement before this, or let ${name(ending)} name ${name(fault!.owner)} too.`,
  });
}
