import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { notesOf, partsOf } from './fault-notes.ts';
import { lampSystem } from './lamp-example.ts';

export const excludedWithoutReason: Rule = {
  id: 'excluded-without-reason',
  severity: 'warning',
  group: 'circuit',
  on: 'system',
  title: 'A fault that is excluded without a reason',
  explanation: `
\`excluded\` takes a fault out of every proof: no procedure need find it any more. Whoever reads the file in a year must be able to judge
whether that still holds, and a plain *yes* does not tell.

Write why the fault cannot happen: where the wire runs, how the part is made. If there is no reason, delete the entry.`,
  bad: lampSystem(`
faults:
  W2 short to ground: { excluded: yes }
#                                 ^^^ warning excluded-without-reason: \`yes\` does not tell why \`W2 short to ground\` cannot happen
`),
  good: lampSystem(`
faults:
  W2 short to ground: { excluded: Runs inside a plastic tube }
`),
  *check(view) {
    for (const note of notesOf(view)) {
      const at = note.excluded === undefined ? undefined : partsOf(note, 'excluded');
      if (!at || !saysNothing(note.excluded!)) continue;
      yield {
        rule: 'excluded-without-reason',
        place: at.value,
        message: `${name(note.excluded!)} does not tell why ${name(note.id)} cannot happen`,
        detail: 'A fault that is excluded is looked for by no procedure.',
        help: 'Write the reason, as in `excluded: Runs inside a plastic tube`.',
      };
    }
  },
};

function saysNothing(reason: string): boolean {
  return /^(yes|no|true|false|on|off|x|y|n|none|n\/a|excluded|impossible|never|\P{L}*)$/iu.test(reason.trim());
}
