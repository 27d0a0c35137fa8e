import { reachable } from '../../graph/reach.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name, named } from '../wording.ts';
import { type StepGraph, stepGraphs } from './step-graph.ts';

export const inspectionAfterMeasuring: Rule = {
  id: 'inspection-after-measuring',
  severity: 'hint',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'Something is measured before anybody has looked',
  explanation: `
Looking costs nothing, and it finds chafed wires and loose plugs at once. In this procedure the technician measures first and comes
to the inspection later.

Put the inspection before the first measurement, if it can be done there.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
#   ^^^^^^^ hint inspection-after-measuring: \`look\` measures before anything was looked at
    red: E1.1
    black: GND-1
    limits: at least 11.5 V
    then: { within: not-found, otherwise: see }
  see: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: test } }
  test:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: at least 11.5 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  *check(view) {
    for (const graph of stepGraphs(view)) {
      const first = measuredFirst(graph);
      if (!first) continue;
      const looks = [...reachable([first], graph.next)].filter(n => graph.step(n)?.action.verb === 'inspect');
      if (looks.length === 0) continue;
      yield {
        rule: 'inspection-after-measuring',
        place: graph.step(first)!.actionPlace,
        message: `${name(first)} measures before anything was looked at`,
        detail: `The technician comes to ${named(looks)} only after it, and looking costs nothing.`,
        help: 'Put an inspection before the first measurement.',
      };
      return;
    }
  },
};

/** A measuring step that a walk from the start comes to before any inspection. */
function measuredFirst(graph: StepGraph): string | undefined {
  const start = graph.procedure.start?.text;
  if (start === undefined || !graph.steps.has(start)) return undefined;
  const goesOn = (node: string) => {
    const verb = graph.step(node)?.action.verb;
    return verb === 'inspect' || verb === 'measure' ? [] : graph.next(node);
  };
  return [...reachable([start], goesOn)].find(node => graph.step(node)?.action.verb === 'measure');
}
