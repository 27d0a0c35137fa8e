import { type Situation, situation } from '../../analysis/situation.ts';
import type { Case, ProcedureView } from '../../analysis/view.ts';
import { existsIn, type Ref } from '../../model/common.ts';
import { type Ending, endingIn, type Procedure } from '../../model/procedure.ts';
import { type Step, stepIn } from '../../model/step.ts';
import { startRefs } from '../structure/step-graph.ts';

/** Things that are still apart where the machine is operated, handed back, or its repair confirmed. */
export interface LeftOver {
  readonly at: Step | Ending;
  readonly one: Case;
  readonly now: Situation;
  readonly names: readonly string[];
}

/**
 * Follows the paths as a technician would who is told at each of these places and puts the thing back there, so that one
 * forgotten plug is told once on each path.
 */
export function leftOvers(view: ProcedureView): readonly LeftOver[] {
  const before = perView.get(view);
  if (before) return before;
  const found = view.cases.flatMap(one => (canBeLeft(view, one) ? follow(view, one) : []));
  perView.set(view, found);
  return found;
}

const perView = new WeakMap<ProcedureView, readonly LeftOver[]>();

/** As many situations at one step as the flow tells apart. */
const mostSituations = 32;

/** Mostly nothing is left anywhere, and then no path need be followed. */
function canBeLeft({ procedure }: ProcedureView, one: Case): boolean {
  for (const step of procedure.steps.values()) {
    if (!isOperated(step, one)) continue;
    if (one.flow.arriving(step.id).some(now => apartWhenOperated(step, one, now).length > 0)) return true;
  }
  for (const ending of procedure.endings.values()) {
    if (one.flow.atEnding(ending.id).some(now => stillApart(procedure, ending, one, now).length > 0)) return true;
  }
  return false;
}

function follow({ procedure }: ProcedureView, one: Case): readonly LeftOver[] {
  const { steps, endings } = procedure;
  const found: LeftOver[] = [];
  const seen = new Map<string, Set<string>>();
  const queue: [string, Situation][] = startRefs(procedure).map(ref => [ref.text, one.circuit.rest]);
  for (let next = queue.pop(); next; next = queue.pop()) {
    const [name, now] = next;
    const step = steps.get(name);
    const at = step ?? endings.get(name);
    const before = seen.get(name) ?? new Set();
    if (!at || !existsIn(at, one.variant) || before.has(now.key) || before.size >= mostSituations) continue;
    seen.set(name, before.add(now.key));
    const names = step ? apartWhenOperated(step, one, now) : stillApart(procedure, at as Ending, one, now);
    if (names.length > 0) found.push({ at, one, now, names });
    const data = step ? stepIn(step, one.variant) : endingIn(at as Ending, one.variant);
    const after = one.after(data, now);
    const together = names.length === 0 ? after : situation(after.states, without(after.apart, names));
    const targets = 'branches' in data ? data.branches.map(b => b.target) : [data.confirm];
    for (const target of targets) if (target) queue.push([target.text, together]);
  }
  return found;
}

function isOperated(step: Step, { variant }: Case): boolean {
  return existsIn(step, variant) && stepIn(step, variant).action.verb === 'operate';
}

/** What the step itself takes apart, or names as apart, is meant to be. */
function apartWhenOperated(step: Step, one: Case, now: Situation): readonly string[] {
  if (now.apart.size === 0 || !isOperated(step, one)) return [];
  const data = stepIn(step, one.variant);
  return known(one, without(one.after(data, now).apart, textsOf([...data.disconnect, ...data.remove])));
}

/** A repair may be confirmed by a measurement at the plug that is still off; then an ending behind that is the place. */
function stillApart({ steps }: Procedure, ending: Ending, one: Case, now: Situation): readonly string[] {
  if (now.apart.size === 0) return [];
  const data = endingIn(ending, one.variant);
  const { apart } = one.after(data, now);
  const step = data.confirm && steps.get(data.confirm.text);
  if (!step || !existsIn(step, one.variant)) return known(one, apart);
  const { action, connect, refit, disconnect, remove } = stepIn(step, one.variant);
  if (action.verb === 'measure' || action.verb === 'inspect') return [];
  return known(one, without(apart, textsOf([...connect, ...refit, ...disconnect, ...remove])));
}

function known({ system, variant }: Case, names: Iterable<string>): readonly string[] {
  return [...names].filter(id => {
    const thing = system.connectors.get(id) ?? system.parts.get(id);
    return thing !== undefined && existsIn(thing, variant);
  });
}

function without(names: Iterable<string>, others: readonly string[]): ReadonlySet<string> {
  return new Set([...names].filter(n => !others.includes(n)));
}

function textsOf(refs: readonly Ref[]): readonly string[] {
  return refs.map(r => r.text);
}
