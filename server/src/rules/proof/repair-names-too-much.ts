import type { Fault } from '../../analysis/faults/fault.ts';
import type { ProcedureView } from '../../analysis/view.ts';
import type { Ref } from '../../model/common.ts';
import type { EndingData } from '../../model/procedure.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import { isBad } from '../../proof/walk-fault.ts';
import { takeOut } from '../fixes.ts';
import type { Finding, Rule } from '../rule.ts';
import { dataOf } from '../step-data.ts';
import { name } from '../wording.ts';
import { heaterBut, soundHeater } from './example.ts';
import { proofOf, walksIn } from './proved.ts';

export const repairNamesTooMuch: Rule = {
  id: 'repair-names-too-much',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A repair that names something which is never at fault there',
  explanation: `
Every fault that the system file allows is walked through the procedure. None of those of this part, wire or plug comes to this repair: it
shows none of the symptoms, or an earlier step has sent it elsewhere. Whoever follows the procedure looks for the fault in more places than
it can be in.

Take the name out of the repair. Where a fault of it should come here, correct the readings on the way.`,
  bad: heaterBut([
    '  the-heater: { mend: [H1, W3, W4], confirm: confirm }\n',
    `  the-heater: { mend: [H1, W3, W4, F1], confirm: confirm }
#                                  ^^ information repair-names-too-much: No fault of \`F1\` comes to \`the-heater\` [fix]
`,
  ]),
  good: soundHeater,
  *check(view) {
    const walks = walksIn(view);
    if (walks.length === 0) return;
    const where = endingsByItem(view, walks);
    for (const one of view.procedure.endings.values()) {
      for (const data of dataOf(one)) {
        // Where nothing comes to the repair at all, or nothing can be wrong with what is named, that is told by itself.
        if (data.items.length < 2 || !data.items.some(item => where.comes(item, one.id))) continue;
        for (const item of data.items) {
          if (where.isSettled(item) && !where.comes(item, one.id)) yield tooMuch(item, one.id, data);
        }
      }
    }
  },
};

/**
 * Which faults come where, by what mends them. What the file leaves to others may be named all the same, and where a fault comes to a bad end
 * that is told: it may yet be led to the repair.
 */
function endingsByItem(view: ProcedureView, walks: readonly ProvedWalk[]) {
  const { elsewhere, leftOut } = proofOf(view);
  const cameBy = new Map<string, Set<string>>();
  const come = (item: string, ending: string) => cameBy.set(item, (cameBy.get(item) ?? new Set()).add(ending));
  for (const { fault, exploration } of walks) {
    for (const item of namesOf(fault)) for (const met of exploration.met.keys()) come(item, met);
    // What a short has blown is replaced with it.
    for (const [ending, fuses] of exploration.gone) for (const fuse of fuses) come(fuse, ending);
  }
  const astray = walks.filter(({ worst, unproved }) => isBad(worst.result) || unproved.length > 0);
  const open = new Set([...leftOut, ...astray].flatMap(({ fault }) => namesOf(fault)));
  const known = new Set([...cameBy.keys(), ...elsewhere.flatMap(({ fault }) => namesOf(fault))]);
  return {
    isSettled: ({ text }: Ref) => known.has(text) && !open.has(text),
    comes: ({ text }: Ref, ending: string) => cameBy.get(text)?.has(ending) ?? false,
  };
}

function namesOf(fault: Fault | undefined): readonly string[] {
  return fault ? [fault.owner, ...fault.mendedBy] : [];
}

function tooMuch(item: Ref, ending: string, { items }: EndingData): Finding {
  return {
    rule: 'repair-names-too-much',
    place: item.place,
    message: `No fault of ${name(item.text)} comes to ${name(ending)}`,
    detail: 'Every fault that the system file allows was walked from every way in, in every variant.',
    help: 'Take it out, or correct the readings that send its faults elsewhere.',
    fixes: takeOut(
      item.place,
      items.map(({ place }) => place),
      `Take ${name(item.text)} out of the repair`,
    ),
  };
}
