import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { holes } from './holes.ts';

export const gapBetweenBranches: Rule = {
  id: 'gap-between-branches',
  severity: 'error',
  group: 'limits',
  on: 'procedure',
  title: 'Readings that no branch takes',
  explanation: `
Between two branches of this step, or beyond the last one, there are readings that lead nowhere. A technician whose meter shows one
of them has no instruction, and it is just the odd readings that faults give.

Add \`otherwise\`, which takes every other reading, or let one of the branches reach further. A gap narrower than the smallest
step of the meter's display is none: no reading can fall into it.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11.5 V .. 13 V
    then:
      within: lamp-is-bad
      below 0.5 V: feed
#     ^^^^^^^^^^^ error gap-between-branches: A reading between 0.5 V and 11.5 V leads nowhere [fix]
      above: ask-the-maker
  feed: { ask: Is the plug corroded?, then: { yes: ask-the-maker, no: lamp-is-bad } }
endings:
  lamp-is-bad: { refer: Lamp catalogue }
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11.5 V .. 13 V
    then:
      within: lamp-is-bad
      below 0.5 V: feed
      otherwise: ask-the-maker
  feed: { ask: Is the plug corroded?, then: { yes: ask-the-maker, no: lamp-is-bad } }
endings:
  lamp-is-bad: { refer: Lamp catalogue }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    for (const { kind, finding } of holes(view)) if (kind === 'gap') yield { rule: 'gap-between-branches', ...finding };
  },
};
