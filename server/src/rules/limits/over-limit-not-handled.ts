import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { holes } from './holes.ts';

export const overLimitNotHandled: Rule = {
  id: 'over-limit-not-handled',
  severity: 'error',
  group: 'limits',
  on: 'procedure',
  title: 'A reading of `OL` that no branch takes',
  explanation: `
An ohmmeter shows \`OL\` (over limit) when the circuit between its leads is open. That is the most common fault there is, and here
it leads nowhere.

Add \`above\` or \`otherwise\`, which take \`OL\` too, or a branch of its own: \`OL: open-circuit\`.`,
  bad: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then:
      within: feed
#     ^^^^^^ error over-limit-not-handled: A reading of \`OL\` leads nowhere [fix]
      below: ask-the-maker
  feed: { ask: Is the plug corroded?, connect: [X1], then: { yes: ask-the-maker, no: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then:
      within: feed
      below: ask-the-maker
      above: ask-the-maker
  feed: { ask: Is the plug corroded?, connect: [X1], then: { yes: ask-the-maker, no: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
  not-found: { no fault: The lamp is bright }
`),
  *check(view) {
    for (const { kind, finding } of holes(view)) {
      if (kind === 'over limit') yield { rule: 'over-limit-not-handled', ...finding };
    }
  },
};
