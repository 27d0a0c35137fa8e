import { existsIn } from '../../model/common.ts';
import { type Branch, stepIn } from '../../model/step.ts';
import type { Rule } from '../rule.ts';
import { counted, name } from '../wording.ts';
import { coldHeater } from './example.ts';
import { walksIn } from './proved.ts';

export const stepSplitsNothing: Rule = {
  id: 'step-splits-nothing',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A measurement that tells nothing apart',
  explanation: `
Every fault that can come to this step, and a good machine, leave it by the same branch. Whatever is measured here is known before: it costs
minutes and rules nothing out.

Leave the step out, or measure where the faults that are left differ.`,
  bad: coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 10 V
    then: { within: again, otherwise: around-it }
  again:
# ^^^^^ information step-splits-nothing: \`again\` tells nothing apart: all that comes here leaves by \`within\`
    title: Voltage behind the fuse
    needs: { key: run }
    measure: voltage
    red: F1.2
    black: GND-1
    limits: at least 8 V
    then: { within: current, otherwise: around-it }
  current:
    title: Current of the heater
    needs: { key: run }
    measure: current
    around: W3
    limits: above 1 A
    then: { within: not-found, otherwise: the-heater }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, GND-1, H1], confirm: confirm }
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  good: coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 10 V
    then: { within: current, otherwise: around-it }
  current:
    title: Current of the heater
    needs: { key: run }
    measure: current
    around: W3
    limits: above 1 A
    then: { within: not-found, otherwise: the-heater }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, GND-1, H1], confirm: confirm }
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  *check(view) {
    const walks = walksIn(view);
    if (walks.length === 0) return;
    for (const step of view.procedure.steps.values()) {
      const taken = new Set<Branch | undefined>();
      const targets = new Set<string | undefined>();
      let come = 0;
      for (const { exploration } of walks) {
        const here = exploration.taken.get(step.id);
        if (!here) continue;
        come++;
        for (const branch of here) {
          taken.add(branch);
          targets.add(branch?.target?.text);
        }
      }
      const data = view.cases.filter(one => existsIn(step, one.variant)).map(one => stepIn(step, one.variant));
      const measures = data.some(({ action, branches }) => isMeasured(action.verb) && branches.length > 1);
      if (!measures || come < 2 || targets.size !== 1 || taken.has(undefined)) continue;
      const [branch] = taken;
      yield {
        rule: 'step-splits-nothing',
        place: step.place,
        message: `${name(step.id)} tells nothing apart: all that comes here leaves by ${name(branch!.key.text)}`,
        detail: `${counted(come, 'walk')} of faults and of good machines come here, and all go on to ${name(branch!.target?.text ?? '')}.`,
        help: 'Leave the step out, or measure where the faults that are left differ.',
      };
    }
  },
};

function isMeasured(verb: string): boolean {
  return verb === 'measure' || verb === 'read';
}
