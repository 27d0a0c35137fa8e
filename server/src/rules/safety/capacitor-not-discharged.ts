import { existsIn } from '../../model/common.ts';
import { partIn } from '../../model/parts.ts';
import type { StepData } from '../../model/step.ts';
import { reachedSteps } from '../conditions/arrivals.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { pressProcedure } from './example.ts';
import { cautionsIn, ownerOfPoint } from './hazards.ts';

const bad = pressProcedure(`
steps:
  look:
    set: { key: off }
    measure: resistance
    red: C1.1 (back-probe)
#        ^^^^ warning capacitor-not-discharged: \`C1\` is measured in ohms and nothing says that it is discharged
    black: C1.2 (back-probe)
    limits: at least 10 kΩ
    then: { within: not-found, otherwise: ask-the-maker }
`);

export const capacitorNotDischarged: Rule = {
  id: 'capacitor-not-discharged',
  severity: 'warning',
  group: 'safety',
  on: 'procedure',
  title: 'Ohms at a capacitor that may still be charged',
  explanation: `
A capacitor keeps its charge after the supply is off. The ohmmeter then reads nonsense or is damaged, and from a large one the technician gets
a shock or a burn.

Let the step say in a caution how the capacitor is discharged and proved dead. (Common practice, no source.)`,
  bad,
  good: bad
    .replace(/^#.*\n/m, '')
    .replace('    measure', '    cautions: [{ warning: Discharge C1 through a lamp and prove it dead }]\n    measure'),
  *check(view) {
    for (const { data, cases } of reachedSteps(view, measuresOhms)) {
      const { action, cautions } = data;
      if (action.verb !== 'measure') continue;
      for (const lead of [action.red, action.black]) {
        const owner = lead && ownerOfPoint(lead.point.text);
        const isCharged = cases.some(({ one: { system, variant } }) => {
          const part = owner === undefined ? undefined : system.parts.get(owner);
          const isThere = part && existsIn(part, variant) && partIn(part, variant).kind === 'capacitor';
          return isThere && cautionsIn(cautions, variant).length === 0;
        });
        if (!lead || owner === undefined || !isCharged) continue;
        yield {
          rule: 'capacitor-not-discharged',
          place: lead.point.place,
          message: `${name(owner)} is measured in ohms and nothing says that it is discharged`,
          detail: 'It keeps its charge when the supply is off, and the meter is connected to it.',
          help: 'Say in a caution of this step how it is discharged and proved dead.',
        };
        break;
      }
    }
  },
};

function measuresOhms({ action }: StepData): boolean {
  return action.verb === 'measure' && (action.measure === 'resistance' || action.measure === 'continuity');
}
