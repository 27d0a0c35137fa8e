import { isRepair } from '../../model/procedure.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { dataOf } from '../step-data.ts';
import { name } from '../wording.ts';

export const endingNamesNothing: Rule = {
  id: 'ending-names-nothing',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  title: 'A repair that names no part',
  explanation: `
The whole procedure leads up to this: the part to replace, or the wire to mend. Here none is named.

Write the names of the parts, wires or connectors, as in \`replace: [E1]\`. One is best; each further one may be good and paid for
in vain.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: mend-it, all sound: not-found } }
  works-again: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-it: { mend: [], confirm: works-again }
#            ^^^^ error ending-names-nothing: Ending \`mend-it\` does not say what to mend
  not-found: { no fault: The lamp is bright }
  done: { repaired: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: mend-it, all sound: not-found } }
  works-again: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-it: { mend: [W4], confirm: works-again }
  not-found: { no fault: The lamp is bright }
  done: { repaired: The lamp is bright }
`),
  *check({ procedure }) {
    for (const ending of procedure.endings.values()) {
      for (const { kind, kindPlace, items } of dataOf(ending)) {
        if (!isRepair(kind) || items.length > 0) continue;
        yield {
          rule: 'ending-names-nothing',
          place: kindPlace,
          message: `Ending ${name(ending.id)} does not say what to ${kind}`,
          detail: 'A technician who comes here has found the fault and is not told where it is.',
          help: 'Name the part, wire or connector.',
        };
      }
    }
  },
};
