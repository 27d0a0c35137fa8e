import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { derivedIn, notesOf, partsOf } from './fault-notes.ts';
import { lampSystem } from './lamp-example.ts';

export const addedFaultIsDerived: Rule = {
  id: 'added-fault-is-derived',
  severity: 'warning',
  group: 'circuit',
  on: 'system',
  title: 'A fault is added that the list has already',
  explanation: `
\`added\` puts a fault into the list that does not follow from the parts and wires. This one does follow from them, so nothing is added; a
reader would think that it needed a special reason.

Delete \`added\`. Likelihood, severity and the like may stay.`,
  bad: lampSystem(`
faults:
  W2 open: { added: It broke twice last year }
#            ^^^^^ warning added-fault-is-derived: \`W2 open\` is in the list without being added
`),
  good: lampSystem(`
faults:
  W2 open: { likelihood: 3 }
  W2 short to W3: { added: They share a clip }
`),
  *check(view) {
    for (const note of notesOf(view)) {
      const isKnown = note.added !== undefined && derivedIn(view, note).length > 0;
      const at = isKnown ? partsOf(note, 'added') : undefined;
      if (!at) continue;
      yield {
        rule: 'added-fault-is-derived',
        place: at.key,
        message: `${name(note.id)} is in the list without being added`,
        detail: 'It follows from the parts and wires of the system.',
        help: 'Delete `added`; if it happens often, write `likelihood`.',
      };
    }
  },
};
