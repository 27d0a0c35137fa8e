import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { circumstances, judgedSteps, numbers } from './judged.ts';

export const dropWithoutLoad: Rule = {
  id: 'drop-without-load',
  severity: 'warning',
  group: 'circuit',
  on: 'procedure',
  title: 'A voltage drop measured while no current flows',
  explanation: `
A voltage drop shows the resistance of a path only while its load current flows. Without current every path drops nothing, the corroded one
as well, and the step passes for the wrong reason.

Set the condition in which the load runs.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: off }
    measure: voltage drop
#   ^^^^^^^ warning drop-without-load: No current flows where this drop is measured
    red: E1.2
    black: GND-1
    limits: below 0.1 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage drop
    red: E1.2
    black: GND-1
    limits: below 0.1 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    for (const { action, data, outcomes } of judgedSteps(view)) {
      if (action.verb !== 'measure' || action.measure !== 'voltage drop') continue;
      const dead = numbers(outcomes).filter(o => o.reading.low === 0 && o.reading.high === 0);
      if (dead.length === 0) continue;
      yield {
        rule: 'drop-without-load',
        place: data.actionPlace,
        message: 'No current flows where this drop is measured',
        detail: `${circumstances(dead, view)} the circuit gives 0 V here whatever the resistances are.`,
        help: 'Set the condition in which the load runs.',
      };
    }
  },
};
