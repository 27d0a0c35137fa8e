import type { Limit } from '../base/quantity/limit.ts';
import { existsIn, type Ref } from '../model/common.ts';
import type { Meter } from '../model/meter.ts';
import { type Ending, endingIn } from '../model/procedure.ts';
import { specifiedAt } from '../model/specification.ts';
import type { Specified } from '../model/specified.ts';
import { type Step, stepIn } from '../model/step.ts';
import type { MeterReading } from './electrical.ts';
import { limitAround } from './limit-around.ts';
import { starts } from './make-flow.ts';
import { type Situation, situation } from './situation.ts';
import type { Case, ProcedureView } from './view.ts';

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
  return view.cases.flatMap(one => followed(one)?.found ?? []);
}

/**
 * How one arrives at a step whether or not the things left apart before it are put back; undefined where nothing is left. Whatever
 * else is found behind a forgotten plug, or behind a plug put back that was meant to be off, would only be an echo.
 */
export function arrivingEitherWay(one: Case, step: string): readonly Situation[] | undefined {
  const path = followed(one);
  return path && path.found.length > 0
    ? one.flow.arriving(step).filter(now => path.arrivals.get(step)?.has(now.key))
    : undefined;
}

/** The paths of one case on which something is left, and the situations in which each step and ending is come to. */
interface Followed {
  readonly found: readonly LeftOver[];
  readonly arrivals: ReadonlyMap<string, ReadonlyMap<string, Situation>>;
}

/** Mostly nothing is left anywhere, and then no path need be followed. */
function followed(one: Case): Followed | undefined {
  if (!perCase.has(one)) perCase.set(one, canBeLeft(one) ? follow(one) : undefined);
  return perCase.get(one);
}

const perCase = new WeakMap<Case, Followed | undefined>();

/** As many situations at one step as the flow tells apart. */
const mostSituations = 32;

function canBeLeft(one: Case): boolean {
  const { procedure } = one;
  for (const step of procedure.steps.values()) {
    if (!isOperated(step, one)) continue;
    if (one.flow.arriving(step.id).some(now => apartWhenOperated(step, one, now).length > 0)) return true;
  }
  for (const ending of procedure.endings.values()) {
    if (one.flow.atEnding(ending.id).some(now => stillApart(ending, one, now).length > 0)) return true;
  }
  return false;
}

function follow(one: Case): Followed {
  const { procedure } = one;
  const { steps, endings } = procedure;
  const found: LeftOver[] = [];
  const arrivals = new Map<string, Map<string, Situation>>();
  const queue: [string, Situation][] = starts(procedure).map(name => [name, one.circuit.rest]);
  for (let next = queue.pop(); next; next = queue.pop()) {
    const [name, now] = next;
    const step = steps.get(name);
    const at = step ?? endings.get(name);
    const before = arrivals.get(name) ?? new Map<string, Situation>();
    if (!at || !existsIn(at, one.variant) || before.has(now.key) || before.size >= mostSituations) continue;
    arrivals.set(name, before.set(now.key, now));
    const names = step ? apartWhenOperated(step, one, now) : stillApart(at as Ending, one, now);
    if (names.length > 0) found.push({ at, one, now, names });
    const data = step ? stepIn(step, one.variant) : endingIn(at as Ending, one.variant);
    const after = one.after(data, now);
    const together = names.length === 0 ? after : situation(after.states, without(after.apart, names), after.held);
    const targets = 'branches' in data ? data.branches.map(b => b.target) : [data.confirm];
    for (const target of targets) if (target) queue.push([target.text, together]);
  }
  return { found, arrivals };
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

/**
 * A repair may be confirmed by a measurement at the plug that is still off; then an ending behind that is the place. Where the
 * measurement is only good with everything together, it is not meant so.
 */
function stillApart(ending: Ending, one: Case, now: Situation): readonly string[] {
  const { steps, meter } = one.procedure;
  if (now.apart.size === 0) return [];
  const data = endingIn(ending, one.variant);
  const handed = one.after(data, now);
  const step = data.confirm && steps.get(data.confirm.text);
  if (!step || !existsIn(step, one.variant)) return known(one, handed.apart);
  const confirming = stepIn(step, one.variant);
  const { action, connect, refit, disconnect, remove } = confirming;
  const left = known(one, without(handed.apart, textsOf([...connect, ...refit, ...disconnect, ...remove])));
  if (action.verb === 'inspect') return [];
  if (action.verb !== 'measure') return left;
  if (left.length === 0) return [];
  const readingIn = (before: Situation) => one.circuit.read(action, meter, one.after(confirming, before));
  const together = readingIn(situation(handed.states, without(handed.apart, left), handed.held));
  const limit = limitWhere(together, specifiedAt(confirming, one.system), meter);
  return isMet(together, limit) && !isMet(readingIn(handed), limit) ? left : [];
}

/** What the author wrote, or what the circuit gives with everything together. */
function limitWhere(together: MeterReading, specified: Specified | undefined, meter: Meter): Limit | undefined {
  if (specified?.marginRatio === undefined || together.state !== 'number') return specified?.limit;
  return limitAround([together], specified.marginRatio, together.dimension, meter);
}

function isMet(reading: MeterReading, limit: Limit | undefined): boolean {
  if (reading.state === 'over limit') return limit?.overLimit ?? false;
  if (reading.state !== 'number') return false;
  return !limit || (limit.low <= reading.nominal && reading.nominal <= limit.high);
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
