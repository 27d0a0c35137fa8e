import type { ProcedureView } from '../../analysis/view.ts';
import { reachable, reversed } from '../../graph/reach.ts';
import { type StepGraph, saysWhereItStarts, stepGraphs } from './step-graph.ts';

/** A step or ending that no walk comes to, with what cannot be reached only because of it. */
export interface Unreached {
  readonly name: string;
  readonly behind: readonly string[];
  /** What leads here and cannot be reached either: the rest of a loop. */
  readonly before: readonly string[];
}

/**
 * The first ones of everything that no walk comes to in any variant, in file order. Nothing while a walk meets a target
 * that is missing or unknown, because that one may have been meant to lead here, and nothing while it is not said where a
 * walk begins.
 */
export function unreached(view: ProcedureView): readonly Unreached[] {
  const known = cache.get(view);
  if (known) return known;
  const found = saysWhereItStarts(view.procedure) ? compute(stepGraphs(view)) : [];
  cache.set(view, found);
  return found;
}

const cache = new WeakMap<ProcedureView, readonly Unreached[]>();

function compute(graphs: readonly StepGraph[]): readonly Unreached[] {
  const reached = new Set<string>();
  for (const graph of graphs) {
    const here = reachable(graph.starts, graph.next);
    if (here.size === 0) return [];
    for (const name of here) {
      if (graph.isOpen(name)) return [];
      reached.add(name);
    }
  }
  const names = new Set(graphs.flatMap(g => [...g.steps.keys(), ...g.endings.keys()]));
  return firstOnes(
    [...names].filter(name => !reached.has(name)),
    node => [...new Set(graphs.flatMap(g => g.next(node)))],
  );
}

/** What nothing else of the rest leads to; of a loop that nothing leads to, its first one. */
function firstOnes(rest: readonly string[], next: (node: string) => readonly string[]): readonly Unreached[] {
  const leftOver = new Set(rest);
  const before = reversed(rest, next);
  const found: Unreached[] = [];
  const take = (name: string) => {
    const behind = [...reachable([name], next)].filter(node => node !== name && leftOver.delete(node));
    leftOver.delete(name);
    found.push({ name, behind, before: before(name) });
  };
  for (const name of rest) if (before(name).every(node => node === name)) take(name);
  for (const name of rest) {
    if (!leftOver.has(name)) continue;
    const after = reachable([name], next);
    if ([...reachable([name], before)].every(node => after.has(node))) take(name);
  }
  return found.sort((a, b) => rest.indexOf(a.name) - rest.indexOf(b.name));
}
