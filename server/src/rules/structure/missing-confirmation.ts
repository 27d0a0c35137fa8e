import { type EndingData, isRepair } from '../../model/procedure.ts';
import { find } from '../../syntax/tree.ts';
import { lampProcedure } from '../example.ts';
import { addKey } from '../fixes.ts';
import type { Rule } from '../rule.ts';
import { dataOf } from '../step-data.ts';
import { name } from '../wording.ts';

export const missingConfirmation: Rule = {
  id: 'missing-confirmation',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  title: 'A repair that nothing confirms',
  explanation: `
After a repair somebody has to see that the complaint is gone. Without that, a wrong repair leaves the workshop, and the part that was
replaced was perhaps a good one.

Add \`confirm\` with the step that tries the machine again. It should be able to end at an ending of the kind \`repaired\`.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: mend-W4, all sound: not-found } }
endings:
  mend-W4: { mend: [W4] }
#            ^^^^ warning missing-confirmation: Nothing confirms the repair \`mend-W4\`
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: mend-W4, all sound: not-found } }
  works-again: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-W4: { mend: [W4], confirm: works-again }
  not-found: { no fault: The lamp is bright }
  done: { repaired: The lamp is bright }
`),
  *check({ procedure }) {
    const endings = [...procedure.endings.values()];
    const usual = mostUsed(endings.flatMap(ending => dataOf(ending)));
    for (const ending of endings) {
      for (const { kind, kindPlace, confirm } of dataOf(ending)) {
        // A key without a value yet is told about by the shape of the file.
        if (!isRepair(kind) || confirm || find(ending.entry.value, 'confirm')) continue;
        yield {
          rule: 'missing-confirmation',
          place: kindPlace,
          message: `Nothing confirms the repair ${name(ending.id)}`,
          detail: 'A technician would hand the machine back without having seen that the complaint is gone.',
          help: `Add \`confirm\` with the step that tries the machine again${usual ? `, for example ${name(usual)}` : ''}.`,
          fixes: usual === undefined ? [] : addKey(ending, 'confirm', usual),
        };
      }
    }
  },
};

/** The step that most repairs are confirmed by. */
function mostUsed(endings: readonly EndingData[]): string | undefined {
  const counts = new Map<string, number>();
  for (const { confirm } of endings) if (confirm) counts.set(confirm.text, (counts.get(confirm.text) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0];
}
