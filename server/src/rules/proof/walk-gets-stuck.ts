import type { ProcedureView } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';
import { stepIn } from '../../model/step.ts';
import { goesRound } from '../../proof/explore.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { asFinding, blamed, faultsInWords } from './blame.ts';
import { coldHeater } from './example.ts';
import { badWalks } from './proved.ts';

export const walkGetsStuck: Rule = {
  id: 'walk-gets-stuck',
  severity: 'warning',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A fault with which a step cannot be done, or leads nowhere',
  explanation: `
Every fault is walked through the procedure. With this one the technician comes to a step and cannot go on: no branch takes what is read there,
the circuit is still live under the ohmmeter because of the fault, or the procedure goes round for ever.

Add the branch that is missing (\`otherwise\` takes every other reading), or do the step in another way.`,
  bad: coldHeater(`
steps:
  look:
    title: Try it
    set: { key: run }
    operate: Switch the heater on
    then:
#   ^^^^ warning walk-gets-stuck: 38 faults get stuck here, first \`S1 open\`
      it gets warm: { go to: not-found, when: { H1: on } }
      it smokes: { go to: the-heater, shows: [H1 shorted] }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  good: coldHeater(`
steps:
  look:
    title: Try it
    set: { key: run }
    operate: Switch the heater on
    then:
      it gets warm: { go to: not-found, when: { H1: on } }
      it smokes: { go to: the-heater, shows: [H1 shorted] }
      it stays cold: { go to: around-it, when: { H1: off } }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, H1], confirm: confirm }
  the-heater: { mend: [H1], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  *check(view) {
    const walks = badWalks(view, ({ worst }) => worst.result === 'stuck' && !worst.isUndecided);
    for (const about of blamed(walks, walk => placeOfStuck(view, walk))) {
      const [{ worst, fault }] = about.walks;
      if (worst.end.kind !== 'stuck') continue;
      const { at, why } = worst.end;
      const isRing = why === goesRound;
      const [one, several] = isRing
        ? ['goes', 'go'].map(go => `${go} round for ever here`)
        : ['gets stuck here', 'get stuck here'];
      yield asFinding('walk-gets-stuck', view, about, {
        message: fault ? faultsInWords(about, one, several) : `A good machine ${one}`,
        detail: `At ${name(at)}, ${why.charAt(0).toLowerCase()}${why.slice(1)}.`,
        help: isRing
          ? 'Let one of the steps on the way round lead out for it.'
          : 'Add the branch that is missing, or change the step so that it can be done.',
      });
    }
  },
};

function placeOfStuck(view: ProcedureView, { worst: { end }, of }: ProvedWalk): Place | undefined {
  if (end.kind !== 'stuck') return undefined;
  const step = view.procedure.steps.get(end.at);
  const data = step && stepIn(step, of.variant);
  if (!data) return undefined;
  return end.why.startsWith('No ') ? (data.thenPlace ?? step.place) : data.actionPlace;
}
