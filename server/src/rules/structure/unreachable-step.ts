import type { ProcedureView } from '../../analysis/view.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { counted, named } from '../wording.ts';
import { type Unreached, unreached } from './unreached.ts';

export const unreachableStep: Rule = {
  id: 'unreachable-step',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A step that no branch leads to',
  explanation: `
A technician only ever arrives at a step because another step, or the start of the procedure, sends them there. Nothing
sends anybody to this one, so it is printed and maintained but never done. Mostly a branch was forgotten, or a step was
replaced and the old one left behind.

Name the step as the target of the branch that should lead to it, or delete it. If whole groups of steps cannot be reached,
only the first of each group is reported.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: mend-W4, all sound: not-found } }
  spare-check: { inspect: [W5], then: { damage found: mend-W4, all sound: not-found } }
# ^^^^^^^^^^^ warning unreachable-step: Step \`spare-check\` can never be reached
  works-again: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-W4: { mend: [W4], confirm: works-again }
  not-found: { no fault: The lamp is bright }
  done: { repaired: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: mend-W4, all sound: spare-check } }
  spare-check: { inspect: [W5], then: { damage found: mend-W4, all sound: not-found } }
  works-again: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-W4: { mend: [W4], confirm: works-again }
  not-found: { no fault: The lamp is bright }
  done: { repaired: The lamp is bright }
`),
  *check(view) {
    for (const each of unreached(view)) {
      const step = view.procedure.steps.get(each.name);
      if (step) yield finding(view, each, step.place);
    }
  },
};

function finding(view: ProcedureView, { name, before, behind }: Unreached, place: Finding['place']): Finding {
  const { procedure } = view;
  const others = before.filter(n => n !== name);
  const why =
    others.length > 0
      ? `Only ${named(others)} ${others.length === 1 ? 'leads' : 'lead'} here, and no branch comes from outside.`
      : 'No branch of any step and no way into the procedure names it.';
  const steps = behind.filter(n => procedure.steps.has(n));
  const more =
    steps.length > 0
      ? ` ${counted(steps.length, 'more step')} behind it cannot be reached either: ${named(steps)}.`
      : '';
  return {
    rule: 'unreachable-step',
    place,
    message: `Step \`${name}\` can never be reached`,
    detail: why + more,
    help: 'Name it in the `then` of the step that should lead to it, or delete it.',
  };
}
