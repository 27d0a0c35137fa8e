import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';

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
  check: inEachStep(function* (data, step) {
    if (data.branches.length > 0) return;
    yield {
      rule: 'missing-branches',
      place: data.thenPlace ?? step.place,
      message: `Step \`${step.id}\` does not say what comes next`,
      detail: 'A technician who has done this step has nowhere to go.',
      help: 'Add `then` with a step or an ending for each answer.',
    };
  }),
};
