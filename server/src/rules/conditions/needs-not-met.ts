import type { ProcedureView } from '../../analysis/view.ts';
import type { Fix } from '../../base/finding.ts';
import type { TestPart } from '../../model/common.ts';
import { endingIn } from '../../model/procedure.ts';
import { type Step, type StepData, stepIn } from '../../model/step.ts';
import { find } from '../../syntax/tree.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name, named } from '../wording.ts';
import { type Arrival, arrivalsAt, circumstances, failingPart, needInWords, reachedSteps } from './arrivals.ts';

export const needsNotMet: Rule = {
  id: 'needs-not-met',
  severity: 'error',
  group: 'conditions',
  on: 'procedure',
  title: 'A step whose `needs` does not hold when it is reached',
  explanation: `
\`needs\` says what must already hold when a technician comes to this step. On at least one path through the procedure it does not: the key was
left off by the step before, or nothing has switched it on yet.

Let the step do it itself with \`set\`, or set it in the steps that lead here. \`needs\` is for what a step relies on without touching it again.`,
  bad: lampProcedure(`
steps:
  look:
    needs: { key: run }
#            ^^^ error needs-not-met: \`needs\` does not hold on arrival: \`key\` is at \`off\` [fix]
    ask: Does the lamp glow at all?
    then: { yes: not-found, no: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look: { do: Turn the key to run, set: { key: run }, then: glow }
  glow:
    needs: { key: run }
    ask: Does the lamp glow at all?
    then: { yes: not-found, no: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    for (const reached of reachedSteps(view, data => data.needs !== undefined)) {
      const { thing, data } = reached;
      const needs = data.needs ?? [];
      const unmet = arrivalsAt(reached).filter(({ now }) => failingPart(needs, now));
      const [first] = unmet;
      const part = first && failingPart(needs, first.now);
      if (!first || !part) continue;
      yield {
        rule: 'needs-not-met',
        place: part.name.place,
        message: `\`needs\` does not hold on arrival: ${name(part.name.text, 20)} is at ${name(state(first, part), 16)}`,
        detail: `${name(thing.id)} needs ${needInWords(part)}. ${circumstances(unmet, view)} ${cameFrom(view, thing, first)}.`,
        help: 'Set it in this step, or in the steps that lead here.',
        fixes: setInstead(thing, data),
      };
    }
  },
};

function state({ now }: Arrival, { name: { text } }: TestPart): string {
  return now.states.get(text) ?? '';
}

/** What a technician did last before coming here in this situation. */
function cameFrom({ procedure }: ProcedureView, { id }: Step, { one, now }: Arrival): string {
  const steps = [...procedure.steps.values()].filter(
    step =>
      stepIn(step, one.variant).branches.some(b => b.target?.text === id) && one.flow.during(step.id).includes(now),
  );
  const repairs = [...procedure.endings.values()].filter(ending => {
    const data = endingIn(ending, one.variant);
    return data.confirm?.text === id && one.flow.atEnding(ending.id).some(before => one.after(data, before) === now);
  });
  const before = [...steps, ...repairs].map(d => d.id);
  return before.length > 0 ? `it is reached from ${named(before)}` : 'the procedure starts here';
}

/** Only where what is needed is one state for each name, so that it can be set just as it stands. */
function setInstead(step: Step, { needs = [], set }: StepData): readonly Fix[] {
  const entry = find(step.entry.value, 'needs');
  const isPlain = needs.length === 1 && needs[0]!.every(p => p.states.length === 1 && !/\d/.test(p.states[0]!.text));
  if (!entry || set.length > 0 || !isPlain || entry.value.kind !== 'map') return [];
  if (entry.value.entries.some(e => e.value.kind !== 'scalar')) return [];
  const place = { uri: step.place.uri, span: entry.key.span };
  return [{ title: 'Write `set` in place of `needs`', edits: [{ place, text: 'set' }] }];
}
