import type { Place } from '../../base/place.ts';
import type { End, Move } from '../../proof/explore.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { asFinding, blamed, faultsInWords, leadsTo } from './blame.ts';
import { heaterBut } from './example.ts';
import { walksIn } from './proved.ts';

export const answersDoNotTell: Rule = {
  id: 'answers-do-not-tell',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'Answers of which nothing says who gives them',
  explanation: `
Whether a fault is found depends here on an answer, and the procedure does not say which faults show it: with one answer the fault is found,
with another it is not. So nothing is proved about the faults that come by.

Say with \`when\` what the machine does where this is the answer, or with \`shows\` which faults, parts or items show it.`,
  bad: heaterBut([
    '  look:\n',
    `  look:
    ask: Did it get warm last winter?
    then: { yes: volts, no: not-found }
#   ^^^^ information answers-do-not-tell: 39 faults may be missed by an answer here, first \`S1 open\`
  volts:
`,
  ]),
  good: heaterBut([
    '  look:\n',
    `  look:
    operate: Switch the heater on
    set: { key: run }
    then:
      it stays cold: { go to: volts, when: { H1: off } }
      it gets warm: { go to: current, when: { H1: on } }
  volts:
`,
  ]),
  *check(view) {
    const walks = walksIn(view).filter(walk => walk.fault && missedIn(walk));
    for (const about of blamed(walks, walk => placeOfAnswers(missedIn(walk)!.move))) {
      const { end, move } = missedIn(about.walks[0])!;
      yield asFinding('answers-do-not-tell', view, about, {
        message: faultsInWords(about, 'may be missed by an answer here', 'may be missed by an answer here'),
        detail: `After ${name(move.outcome.text)} it ${leadsTo(end)}, and nothing says that this is not the answer.`,
        help: 'Add `when` or `shows` to the answers.',
        end,
      });
    }
  },
};

/** The first bad end that an answer leads to of which nothing says who gives it. */
function missedIn({ unproved }: ProvedWalk): { readonly end: End; readonly move: Move } | undefined {
  for (const { end } of unproved) {
    const move = end.path.find(({ outcome: { why } }) => why === 'open');
    if (move) return { end, move };
  }
  return undefined;
}

function placeOfAnswers({ data }: Move): Place | undefined {
  return data.thenPlace ?? data.actionPlace;
}
