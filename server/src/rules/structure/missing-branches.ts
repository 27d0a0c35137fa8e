import type { Step, StepData } from '../../model/step.ts';
import { lampProcedure } from '../example.ts';
import { fillKey } from '../fixes.ts';
import type { Rule } from '../rule.ts';
import { dataOf } from '../step-data.ts';

export const missingBranches: Rule = {
  id: 'missing-branches',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  title: 'A step that does not say what comes next',
  explanation: `
Every step leads on: to another step, or to an ending. A step without \`then\` leaves the technician standing there with a
reading and no instruction.

Add \`then\` with one line for each answer or range of readings. A plain instruction that has only one continuation names
it directly: \`then: next-step\`.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: try } }
  try: { operate: Switch the lamp on }
# ^^^ error missing-branches: Step \`try\` does not say what comes next [fix]
endings:
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: try } }
  try: { operate: Switch the lamp on, then: { bright: not-found, dark: ask-the-maker } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  *check({ procedure }) {
    const steps = [...procedure.steps.values()];
    for (const [i, step] of steps.entries()) {
      for (const data of dataOf(step)) {
        if (data.branches.length > 0) continue;
        yield {
          rule: 'missing-branches',
          place: data.thenPlace ?? step.place,
          message: `Step \`${step.id}\` does not say what comes next`,
          detail: 'A technician who has done this step has nowhere to go.',
          help: 'Add `then` with a step or an ending for each answer.',
          fixes: fillKey(step, 'then', continuation(step, data, steps[i + 1])),
        };
      }
    }
  },
};

/**
 * A branch for each answer that the action has. Where all is well the next step of the file follows; the other names are new, so
 * that they can be made into steps or endings, or written over.
 */
function continuation({ id }: Step, { action }: StepData, next: Step | undefined): string {
  const isPlain = next && !next.only && /^[\w-]+(?: [\w-]+)*$/.test(next.id);
  const good = isPlain ? next.id : `${id}-good`;
  const answers = (well: string, ill: string) => `{ ${well}: ${good}, ${ill}: ${id}-bad }`;
  switch (action.verb) {
    case 'inspect':
      return `{ damage found: ${id}-bad, all sound: ${good} }`;
    case 'operate':
      return answers('works', 'does not work');
    case 'ask':
      return `{ yes: ${id}-yes, no: ${isPlain ? next.id : `${id}-no`} }`;
    case 'record':
      return answers('no event', action.channels[0] ? `${action.channels[0].text} moved first` : 'otherwise');
    case 'do':
    case 'none':
      return good;
    default:
      return answers('within', 'otherwise');
  }
}
