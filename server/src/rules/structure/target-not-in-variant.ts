import type { ProcedureView } from '../../analysis/view.ts';
import type { Ref } from '../../model/common.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { inVariants, named } from '../wording.ts';
import { placeOf, type StepGraph, startRefs, stepGraphs } from './step-graph.ts';

export const targetNotInVariant: Rule = {
  id: 'target-not-in-variant',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  title: 'A branch to a step that does not exist in every variant where it is needed',
  explanation: `
The step or ending at the other end of this branch is marked \`only\` for some variants, but the branch is also taken in another
one. There the technician is sent to something that is not printed.

Give the branch another target in that variant (\`by variant\`), let the target exist there too, or mark this step \`only\` as well.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: try } }
#                                                                        ^^^ error target-not-in-variant: There is no \`try\` in variant \`with-dimmer\`
  try: { only: plain, operate: Switch the lamp on, then: { bright: not-found, dark: ask-the-maker } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`).replace('lamp.system.yaml', 'lamp-variants.system.yaml'),
  good: lampProcedure(`
steps:
  look:
    inspect: [W4]
    then: { damage found: ask-the-maker, all sound: try }
    by variant: { with-dimmer: { then: { damage found: ask-the-maker, all sound: not-found } } }
  try: { only: plain, operate: Switch the lamp on, then: { bright: not-found, dark: ask-the-maker } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`).replace('lamp.system.yaml', 'lamp-variants.system.yaml'),
  *check(view) {
    const graphs = stepGraphs(view);
    const found = new Map<string, { from: string; ref: Ref; variants: string[] }>();
    for (const graph of graphs) {
      for (const { from, ref } of targets(graph)) {
        const known = graph.procedure.steps.has(ref.text) || graph.procedure.endings.has(ref.text);
        if (!known || graph.steps.has(ref.text) || graph.endings.has(ref.text) || isMisspelt(view, ref.text)) continue;
        const { start, end } = ref.place.span;
        const key = `${from}\n${ref.text}\n${start}\n${end}`;
        const same = found.get(key);
        if (same) same.variants.push(graph.variant);
        else found.set(key, { from, ref, variants: [graph.variant] });
      }
    }
    const all = graphs.map(g => g.variant);
    for (const { from, ref, variants } of found.values()) {
      const declared = placeOf(view.procedure, ref.text);
      yield finding(from, ref, variants, all, declared);
    }
  },
};

/** Where `only` names a variant that no system has, that is the one mistake. */
function isMisspelt({ procedure, cases }: ProcedureView, target: string): boolean {
  const only = (procedure.steps.get(target) ?? procedure.endings.get(target))?.only ?? [];
  return only.some(v => !cases.some(c => c.system.variants.includes(v.text)));
}

function* targets(graph: StepGraph): Generator<{ from: string; ref: Ref }> {
  for (const ref of startRefs(graph.procedure)) yield { from: '', ref };
  for (const name of graph.steps.keys()) {
    for (const { target } of graph.step(name)!.branches) if (target) yield { from: name, ref: target };
  }
  for (const name of graph.endings.keys()) {
    const confirm = graph.ending(name)!.confirm;
    if (confirm) yield { from: name, ref: confirm };
  }
}

function finding(
  from: string,
  ref: Ref,
  variants: readonly string[],
  all: readonly string[],
  declared: Finding['place'] | undefined,
): Finding {
  const sender = from === '' ? 'The procedure starts' : `\`${from}\` leads`;
  return {
    rule: 'target-not-in-variant',
    place: ref.place,
    message: `There is no \`${ref.text}\`${inVariants(variants, all) || ' in any variant used here'}`,
    detail: `${sender} to \`${ref.text}\` in ${named(variants)} as well, but \`only\` keeps it out there.`,
    help: `Give another target there with \`by variant\`, or let \`${ref.text}\` exist in ${named(variants)}.`,
    related: declared ? [{ place: declared, message: `\`${ref.text}\` exists in some variants only` }] : [],
  };
}
