import { reachable, reversed } from '../../graph/reach.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { placeOf, type StepGraph, stepGraphs } from './step-graph.ts';

export const confirmationWithoutEnd: Rule = {
  id: 'confirmation-without-end',
  severity: 'warning',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A confirmation that can never say that the machine is repaired',
  explanation: `
The step under \`confirm\` is there to see that the complaint is gone. From it no ending of the kind \`repaired\` can be reached, so
even after the right repair the technician is sent on looking.

Lead the good answer of the confirming step to an ending with \`repaired\`.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: mend-W4, all sound: not-found } }
  works-again: { operate: Switch the lamp on, then: { bright: not-found, dark: look } }
endings:
  mend-W4: { mend: [W4], confirm: works-again }
#                                 ^^^^^^^^^^^ warning confirmation-without-end: From \`works-again\` no ending says that the machine is repaired
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
  *check(view) {
    const told = new Set<string>();
    for (const graph of stepGraphs(view)) {
      const canConfirm = confirming(graph);
      for (const [id, { data }] of graph.endings) {
        const confirm = graph.ending(id)?.confirm ?? data.confirm;
        if (!confirm || !graph.steps.has(confirm.text) || told.has(confirm.text)) continue;
        told.add(confirm.text);
        if (!canConfirm.has(confirm.text)) yield finding(graph, confirm);
      }
    }
  },
};

/** What leads to the end of a repair, or to where a way is not written or known yet: that is told elsewhere. */
function confirming(graph: StepGraph): ReadonlySet<string> {
  const steps = [...graph.steps.keys()];
  const ends = [...graph.endings.keys()].filter(id => graph.ending(id)?.kind === 'repaired');
  return reachable([...ends, ...steps.filter(graph.isOpen)], reversed(steps, graph.next));
}

function finding(graph: StepGraph, confirm: { text: string; place: Finding['place'] }): Finding {
  const step = placeOf(graph.procedure, confirm.text);
  return {
    rule: 'confirmation-without-end',
    place: confirm.place,
    message: `From ${name(confirm.text, 24)} no ending says that the machine is repaired`,
    detail: `A repair that ${name(confirm.text)} should confirm never ends well, even where it was the right one.`,
    help: 'Lead its good answer to an ending with `repaired`.',
    related: step ? [{ place: step, message: 'The confirming step' }] : [],
  };
}
