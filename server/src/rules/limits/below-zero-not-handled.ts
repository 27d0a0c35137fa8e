import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { holes } from './holes.ts';

export const belowZeroNotHandled: Rule = {
  id: 'below-zero-not-handled',
  severity: 'warning',
  group: 'limits',
  on: 'procedure',
  title: 'A reading below zero that no branch takes',
  explanation: `
The branches begin at zero. A voltage or a current is below zero as soon as the leads are swapped, a ground has lifted, or a current
flows the other way, and then the technician has no instruction.

Add \`otherwise\`, or write the lowest branch with one end: \`below 0.5 V\` instead of \`0 V .. 0.5 V\`.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: above 11.5 V
    then:
      0 V .. 11.5 V: ask-the-maker
#     ^^^^^^^^^^^^^ warning below-zero-not-handled: A reading below zero leads nowhere [fix]
      within: lamp-is-bad
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
    limits: above 11.5 V
    then:
      below: ask-the-maker
      within: lamp-is-bad
endings:
  lamp-is-bad: { refer: Lamp catalogue }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    for (const { kind, finding } of holes(view)) {
      if (kind === 'below zero') yield { rule: 'below-zero-not-handled', ...finding };
    }
  },
};
