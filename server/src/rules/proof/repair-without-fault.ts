import { faultsOf } from '../../analysis/faults/derive.ts';
import type { ProcedureView } from '../../analysis/view.ts';
import { isRepair } from '../../model/procedure.ts';
import type { Rule } from '../rule.ts';
import { dataOf } from '../step-data.ts';
import { name } from '../wording.ts';
import { heaterBut, soundHeater } from './example.ts';
import { saysWhatItShows } from './proved.ts';

export const repairWithoutFault: Rule = {
  id: 'repair-without-fault',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A repair of something that has no fault',
  explanation: `
The repair names something for which the system file has no fault: none follows from what it is, or all of them are excluded there. So no walk
can ever need it.

Take the name out of the repair, or add the fault to the system file under \`faults\`.`,
  bad: heaterBut([
    '  the-heater: { mend: [H1, W3, W4], confirm: confirm }\n',
    `  the-heater: { mend: [H1, W3, W4, bracket], confirm: confirm }
#                                  ^^^^^^^ information repair-without-fault: No fault of \`bracket\` is modelled, so no walk needs this repair
`,
  ]),
  good: soundHeater,
  *check(view) {
    if (!saysWhatItShows(view)) return;
    const mended = mendedIn(view);
    for (const ending of view.procedure.endings.values()) {
      for (const { kind, items } of dataOf(ending)) {
        if (!isRepair(kind)) continue;
        for (const item of items) {
          if (mended.has(item.text)) continue;
          yield {
            rule: 'repair-without-fault',
            place: item.place,
            message: `No fault of ${name(item.text)} is modelled, so no walk needs this repair`,
            detail:
              'The list of faults of the system file has none that mending it removes, or all of them are excluded.',
            help: 'Take it out, or add its fault to the system file under `faults`.',
          };
        }
      }
    }
  },
};

function mendedIn({ cases }: ProcedureView): ReadonlySet<string> {
  const all = cases.flatMap(({ system, variant }) => faultsOf(system, variant));
  return new Set(
    all.filter(({ excluded }) => excluded === undefined).flatMap(({ owner, mendedBy }) => [owner, ...mendedBy]),
  );
}
