import type { ProcedureView } from '../../analysis/view.ts';
import { loops } from '../../graph/loops.ts';
import { reachable, reversed } from '../../graph/reach.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { inVariants, named } from '../wording.ts';
import { placeOf, type StepGraph, stepGraphs } from './step-graph.ts';

export const loopWithoutExit: Rule = {
  id: 'loop-without-exit',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  needsWholeFile: true,
  title: 'Steps that only lead round in a circle',
  explanation: `
Whatever the technician reads or answers in these steps, the next step is one of them again. No ending can be reached any more,
neither from them nor from a step that leads only to them.

Give one of the steps a branch to an ending, or to a step outside the circle. Going back is fine as long as there is a way out:
after a repair, or after a test was repeated, some answer must lead on.`,
  bad: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: try } }
  try: { operate: Switch the lamp on, then: { bright: wait, dark: wait a little } }
# ^^^ error loop-without-exit: From \`try\`, \`wait\` and \`wait a little\` no ending can be reached
  wait: { do: Wait an hour, then: try }
  wait a little: { do: Wait five minutes, then: try }
endings:
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: try } }
  try: { operate: Switch the lamp on, then: { bright: not-found, dark: wait } }
  wait: { do: Wait an hour, then: try }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  *check(view) {
    const graphs = stepGraphs(view);
    const found = new Map<string, { loop: Closed; variants: string[] }>();
    for (const graph of graphs) {
      for (const loop of closedLoops(graph)) {
        const key = loop.steps.join('\n');
        const same = found.get(key);
        if (same) same.variants.push(graph.variant);
        else found.set(key, { loop, variants: [graph.variant] });
      }
    }
    const all = graphs.map(g => g.variant);
    for (const { loop, variants } of found.values()) yield finding(view, loop, inVariants(variants, all));
  },
};

interface Closed {
  readonly steps: readonly string[];
  /** Steps outside that lead only into the loop. */
  readonly lost: readonly string[];
}

function closedLoops(graph: StepGraph): Closed[] {
  const reached = reachable(graph.starts, graph.next);
  const steps = [...reached].filter(name => graph.steps.has(name));
  const inOrder = [...graph.steps.keys()].filter(name => reached.has(name));
  const closed = loops(inOrder, graph.next).filter(loop => {
    const own = new Set(loop);
    return loop.every(name => !graph.isOpen(name) && graph.next(name).every(after => own.has(after)));
  });
  if (closed.length === 0) return [];
  const waysOut = steps.filter(name => graph.isOpen(name)).concat([...graph.endings.keys()]);
  const canEnd = reachable(waysOut, reversed([...steps], graph.next));
  return closed.map(loop => {
    const own = new Set(loop);
    const before = reachable(loop, reversed(inOrder, graph.next));
    return { steps: loop, lost: inOrder.filter(name => before.has(name) && !own.has(name) && !canEnd.has(name)) };
  });
}

function finding(view: ProcedureView, { steps, lost }: Closed, where: string): Finding {
  const [first = '', ...others] = steps;
  const related = [
    ...others.map(name => ({ name, message: `\`${name}\` belongs to the circle` })),
    ...lost.map(name => ({ name, message: `\`${name}\` leads only into the circle` })),
  ];
  return {
    rule: 'loop-without-exit',
    place: placeOf(view.procedure, first)!,
    message: `From ${named(steps, 3)} no ending can be reached${where}`,
    detail:
      others.length === 0
        ? `Every branch of \`${first}\` leads to \`${first}\` again.`
        : `Every branch of these ${steps.length} steps leads to one of them again.`,
    help: `Lead one branch of ${named(steps, 3)} to an ending, or to a step outside the circle.`,
    related: related.flatMap(({ name, message }) => {
      const place = placeOf(view.procedure, name);
      return place ? [{ place, message }] : [];
    }),
  };
}
