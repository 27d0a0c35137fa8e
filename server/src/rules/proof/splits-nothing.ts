import type { ProcedureView } from '../../analysis/view.ts';
import { existsIn } from '../../model/common.ts';
import { type Branch, type Step, stepIn } from '../../model/step.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import type { Rule } from '../rule.ts';
import { name, named } from '../wording.ts';
import { heaterBut, soundHeater } from './example.ts';
import { repeatsIn } from './measurement-repeats.ts';
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
  bad: heaterBut([
    'within: current, otherwise: around-it }\n',
    `within: again, otherwise: around-it }
  again:
# ^^^^^ information step-splits-nothing: \`again\` tells nothing apart: all go on to \`current\`
    title: Voltage behind the fuse
    needs: { key: run }
    measure: voltage
    red: F1.2
    black: GND-1
    limits: at least 8 V
    then: { within: current, otherwise: around-it }
`,
  ]),
  good: soundHeater,
  *check(view) {
    const walks = walksIn(view);
    if (walks.length === 0) return;
    const repeats = repeatsIn(view);
    const leaving = leavingOf(walks);
    for (const step of view.procedure.steps.values()) {
      const left = leaving.get(step.id);
      // What is measured again splits nothing for that reason, which is told.
      if (!left || repeats.has(step) || !measuresIn(view, step)) continue;
      const { walks: many, faults, isGoodThere, taken } = left;
      const [target, ...others] = new Set([...taken].map(branch => branch?.target?.text));
      if (many < 2 || faults.size === 0 || others.length > 0 || target === undefined) continue;
      const [fault] = faults;
      const come = faults.size === 1 ? name(fault!) : `${faults.size} faults`;
      const keys = new Set([...taken].map(branch => branch!.key.text));
      yield {
        rule: 'step-splits-nothing',
        place: step.place,
        message: `${name(step.id)} tells nothing apart: all go on to ${name(target)}`,
        detail: `All that can come here leaves by ${named([...keys])}: ${come}${isGoodThere ? ' and a good machine' : ''}.`,
        help: 'Leave the step out, or measure where the faults that are left differ.',
      };
    }
  },
};

/** All that comes to a step, and the branches by which it leaves. */
interface Leaving {
  walks: number;
  isGoodThere: boolean;
  readonly faults: Set<string>;
  readonly taken: Set<Branch | undefined>;
}

function leavingOf(walks: readonly ProvedWalk[]): ReadonlyMap<string, Leaving> {
  const found = new Map<string, Leaving>();
  for (const { fault, exploration } of walks) {
    for (const [step, taken] of exploration.taken) {
      const known = found.get(step) ?? { walks: 0, isGoodThere: false, faults: new Set(), taken: new Set() };
      found.set(step, known);
      known.walks++;
      if (fault) known.faults.add(fault.id);
      else known.isGoodThere = true;
      for (const branch of taken) known.taken.add(branch);
    }
  }
  return found;
}

function measuresIn({ cases }: ProcedureView, step: Step): boolean {
  return cases
    .filter(one => existsIn(step, one.variant))
    .map(one => stepIn(step, one.variant))
    .some(({ action: { verb }, branches }) => (verb === 'measure' || verb === 'read') && branches.length > 1);
}
