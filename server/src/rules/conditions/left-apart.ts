import { type LeftOver, leftOvers } from '../../analysis/left-overs.ts';
import type { ProcedureView } from '../../analysis/view.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { inVariants, name, named } from '../wording.ts';
import { putTogether, takenApartBy } from './put-together.ts';

export const leftApart: Rule = {
  id: 'left-apart',
  severity: 'warning',
  group: 'conditions',
  on: 'procedure',
  title: 'An ending that leaves something apart',
  explanation: `
The procedure ends here, or goes on to the step that confirms the repair, and a plug is still off or a part still out of its socket. The
technician who does only what is written hands back a machine that does not work, or looks for a new fault that is none.

Put it back in the ending with \`connect\` or \`refit\`. What the ending itself replaces or mends counts as fitted again.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker }
# ^^^^^^^^^^^^^ warning left-apart: \`X1\` is still apart at this ending [fix]
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  check: view =>
    toldOnce(view, 'endings', (all, names) => {
      const { at } = all[0];
      const are = names.length > 1 ? 'are' : 'is';
      const confirm = view.procedure.endings.get(at.id)?.data.confirm;
      return {
        rule: 'left-apart',
        place: at.place,
        message: `${named(names, 2)} ${are} still apart ${confirm ? 'when this repair is confirmed' : 'at this ending'}`,
        detail: takenBy(view, all, names),
        help: `Put ${names.length > 1 ? 'them' : 'it'} back here with \`connect\` or \`refit\`.`,
        fixes: putTogether(view, at, names),
      };
    }),
};

export const apartWhenOperated: Rule = {
  id: 'apart-when-operated',
  severity: 'warning',
  group: 'conditions',
  on: 'procedure',
  title: 'The machine is operated with something apart',
  explanation: `
A step before took a plug off or a part out, nothing has put it back, and now the machine is to be operated. It will not do what it does when
whole, so the answer says nothing about the fault.

Connect it in this step. Where it is meant to stay apart, as in a test that leaves one branch out on purpose, name it again under \`disconnect\` or
\`remove\` in this step.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: try-it, otherwise: ask-the-maker }
  try-it:
    set: { key: run }
    operate: Look at the lamp
#   ^^^^^^^ warning apart-when-operated: \`X1\` is still apart while the machine is operated [fix]
    then: { bright: not-found, dark: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: try-it, otherwise: ask-the-maker }
  try-it:
    connect: [X1]
    set: { key: run }
    operate: Look at the lamp
    then: { bright: not-found, dark: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  check: view =>
    toldOnce(view, 'steps', (all, names) => {
      const { at } = all[0];
      return {
        rule: 'apart-when-operated',
        place: 'actionPlace' in at.data ? at.data.actionPlace : at.place,
        message: `${named(names, 2)} ${names.length > 1 ? 'are' : 'is'} still apart while the machine is operated`,
        detail: takenBy(view, all, names),
        help: 'Connect it in this step, or name it under `disconnect` here where that is meant.',
        fixes: putTogether(view, at, names),
      };
    }),
};

type Told = readonly [LeftOver, ...LeftOver[]];

/** A finding for each step, or for each ending, with all that is left apart there on any path. */
function* toldOnce(
  view: ProcedureView,
  section: 'steps' | 'endings',
  find: (all: Told, names: readonly string[]) => Finding,
): Generator<Finding> {
  const places = new Map<string, Told>();
  for (const left of leftOvers(view)) {
    if (!view.procedure[section].has(left.at.id)) continue;
    places.set(left.at.id, [...(places.get(left.at.id) ?? []), left] as unknown as Told);
  }
  for (const all of places.values()) yield find(all, [...new Set(all.flatMap(l => l.names))].sort());
}

function takenBy(view: ProcedureView, all: Told, names: readonly string[]): string {
  const [first = ''] = names;
  const steps = takenApartBy(view, first);
  const takes = steps.length === 1 ? 'takes' : 'take';
  const variants = [...new Set(all.map(l => l.one.variant))];
  const where = inVariants(variants, [...new Set(view.cases.map(c => c.variant))]);
  return `${named(steps)} ${takes} ${name(first)} apart, and on a path from there to ${name(all[0].at.id)} nothing puts it back${where}.`;
}
