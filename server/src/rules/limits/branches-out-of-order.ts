import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { inEachNumericStep } from './numeric-step.ts';

export const branchesOutOfOrder: Rule = {
  id: 'branches-out-of-order',
  severity: 'hint',
  group: 'limits',
  on: 'procedure',
  title: 'Ranges that are not in order',
  explanation: `
The ranges of this step go neither up nor down. They are read correctly, but a technician who looks for the line with the reading has
to go through all of them, and a gap or an overlap is easily overlooked.

Put the ranges in ascending or descending order. \`within\`, \`below\`, \`above\` and \`otherwise\` may stand anywhere.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: at least 11.5 V
    then:
      5 V .. 11.5 V: ask-the-maker
      below 0.5 V: feed
      0.5 V .. 5 V: not-found
#     ^^^^^^^^^^^^ hint branches-out-of-order: \`0.5 V .. 5 V\` is not in order
      within: not-found
  feed: { ask: Is the plug corroded?, then: { yes: ask-the-maker, no: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: at least 11.5 V
    then:
      within: not-found
      below 0.5 V: feed
      0.5 V .. 5 V: not-found
      5 V .. 11.5 V: ask-the-maker
  feed: { ask: Is the plug corroded?, then: { yes: ask-the-maker, no: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check: inEachNumericStep(function* ({ step, taken }) {
    const ranges = taken.filter(t => t.branch.match.on === 'limit');
    let direction = 0;
    for (const [i, { branch, region }] of ranges.entries()) {
      const before = ranges[i - 1];
      if (!before) continue;
      const turn = Math.sign(region.low - before.region.low || region.high - before.region.high);
      direction ||= turn;
      if (turn === direction) continue;
      yield {
        rule: 'branches-out-of-order',
        place: branch.key.place,
        message: `${name(branch.key.text)} is not in order`,
        detail: `The ranges of ${name(step.id)} first go ${direction > 0 ? 'up' : 'down'}, then turn round here.`,
        help: 'Put the ranges in ascending or descending order.',
      };
      return;
    }
  }),
};
