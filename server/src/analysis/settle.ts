import type { Element, Network } from '../circuit/network.ts';
import { read } from '../circuit/reading.ts';
import { existsIn } from '../model/common.ts';
import type { Module, OperatingRule, ScanDatum } from '../model/parts.ts';
import { type Lowered, lower, stateOf } from './lower/network.ts';
import { frame, type Wiring } from './lower/wiring.ts';
import type { Situation } from './situation.ts';
import { all, any, holds, type Verdict } from './test.ts';

/** One consistent state of the relays, modules and outputs, with the network that it makes. */
export interface Settled extends Lowered {
  /** Names of what is pulled in, powered, on. */
  readonly on: ReadonlySet<string>;
}

export type Settling =
  /** The first is the one at nominal values; there are more where tolerances leave a relay or a rule undecided. */
  | { readonly settled: readonly Settled[] }
  /** These undo their own cause. */
  | { readonly restless: readonly string[] };

/** More undecided names than this are not forked; every fork doubles the networks. */
const mostUndecided = 3;

/**
 * Finds what relays, modules and operating rules do: from everything at rest, each is decided by the readings of the network
 * that the others make, until nothing changes. A verdict counts as decided where it is the same over all tolerances.
 */
export function settle(wiring: Wiring, situation: Situation, extra: readonly Element[] = []): Settling {
  const settled: Settled[] = [];
  const queue: ReadonlyMap<string, boolean>[] = [new Map()];
  while (queue.length > 0) {
    const pinned = queue.shift()!;
    const outcome = iterate(wiring, situation, extra, pinned);
    if ('restless' in outcome) return outcome;
    if (outcome.undecided.length === 0 || pinned.size >= mostUndecided) {
      settled.push(outcome.settled);
      continue;
    }
    const [{ name, nominal } = { name: '', nominal: false }] = outcome.undecided;
    queue.push(new Map([...pinned, [name, nominal]]), new Map([...pinned, [name, !nominal]]));
  }
  return { settled };
}

interface Undecided {
  readonly name: string;
  readonly nominal: boolean;
}

type Iteration = { settled: Settled; undecided: readonly Undecided[] } | { restless: readonly string[] };

function iterate(
  wiring: Wiring,
  situation: Situation,
  extra: readonly Element[],
  pinned: ReadonlyMap<string, boolean>,
): Iteration {
  let on: ReadonlySet<string> = new Set([...pinned].filter(([, is]) => is).map(([name]) => name));
  const seen = new Map<string, number>();
  const history: ReadonlySet<string>[] = [];
  for (;;) {
    const key = [...on].sort().join(';');
    const before = seen.get(key);
    if (before !== undefined) return { restless: changing(history.slice(before)) };
    seen.set(key, history.length);
    history.push(on);
    const lowered = withExtra(lower(wiring, situation, on), extra);
    const decisions = decide(wiring, situation, lowered.network, on);
    const next = new Set<string>();
    const undecided: Undecided[] = [];
    for (const { name, verdict, nominal } of decisions) {
      const fixed = pinned.get(name);
      if (fixed === undefined && verdict === undefined) undecided.push({ name, nominal });
      if (fixed ?? verdict ?? nominal) next.add(name);
    }
    if (next.size === on.size && [...next].every(name => on.has(name))) {
      return { settled: { ...lowered, on }, undecided };
    }
    on = next;
  }
}

function withExtra(lowered: Lowered, extra: readonly Element[]): Lowered {
  if (extra.length === 0) return lowered;
  const { network } = lowered;
  return { ...lowered, network: { ...network, elements: [...network.elements, ...extra] } };
}

function changing(cycle: readonly ReadonlySet<string>[]): readonly string[] {
  const all = new Set(cycle.flatMap(on => [...on]));
  return [...all].filter(name => !cycle.every(on => on.has(name))).sort();
}

interface Decision {
  readonly name: string;
  readonly verdict: Verdict;
  /** The verdict at nominal values, for where tolerances leave it open. */
  readonly nominal: boolean;
}

function decide(wiring: Wiring, situation: Situation, network: Network, on: ReadonlySet<string>): readonly Decision[] {
  const decisions: Decision[] = [];
  for (const { part, data } of wiring.parts) {
    if (data.kind === 'relay' && data.pullInV !== undefined) {
      const [a, b] = data.terminals.map(t => wiring.terminals.get(`${part.id}.${t.text}`)?.own);
      const threshold = on.has(part.id) ? (data.dropOutV ?? data.pullInV) : data.pullInV;
      decisions.push({ name: part.id, ...overThreshold(network, a, b, threshold) });
    }
    if (data.kind === 'module') decisions.push(...moduleDecisions(wiring, situation, network, on, part.id, data));
  }
  return decisions;
}

/** The size of the voltage between two nodes against a threshold; a coil does not mind which way round. */
function overThreshold(network: Network, a: number | undefined, b: number | undefined, threshold: number) {
  if (a === undefined || b === undefined) return { verdict: false, nominal: false };
  const reading = read(network, { measure: 'voltage', red: a, black: b, inputOhms: Number.POSITIVE_INFINITY });
  if (reading.state !== 'number') return { verdict: false, nominal: false };
  const nominal = Math.abs(reading.nominal) >= threshold;
  const reach = [reading.attained.low, reading.attained.high].map(Math.abs);
  const crossesZero = reading.attained.low <= 0 && reading.attained.high >= 0;
  const [low, high] = [crossesZero ? 0 : Math.min(...reach), Math.max(...reach)];
  return { verdict: low >= threshold ? true : high < threshold ? false : undefined, nominal };
}

function moduleDecisions(
  wiring: Wiring,
  situation: Situation,
  network: Network,
  on: ReadonlySet<string>,
  id: string,
  data: Module,
): readonly Decision[] {
  const node = (pin: string | undefined) => wiring.terminals.get(`${id}.${pin}`)?.own;
  const ground = node(data.ground?.text) ?? frame;
  const power = data.powered
    ? overThreshold(network, node(data.powered.pin.text), ground, data.powered.aboveV)
    : { verdict: true, nominal: true };
  const decisions: Decision[] = [{ name: id, ...power }];
  const running = on.has(id);
  const known = new Map<string, readonly string[]>();
  const scanned = (name: string) => {
    const states = known.get(name) ?? scanStates(wiring, situation, { network, on }, id, data, name);
    known.set(name, states);
    return states;
  };
  for (const pin of data.pins.values()) {
    if (pin.output !== 'low side' && pin.output !== 'high side') continue;
    const rules = data.rules.filter(
      rule => existsIn(rule, wiring.variant) && rule.outputs.some(o => o.pin.text === pin.id && o.on),
    );
    const driven = (states: (name: string) => readonly string[]) => running && any(rules.map(r => inForce(r, states)));
    const nominal = driven(name => scanned(name).slice(0, 1)) === true;
    decisions.push({ name: `${id}.${pin.id}`, verdict: driven(scanned), nominal });
  }
  return decisions;
}

/** A rule is in force while its `when` holds and its `until` does not. */
function inForce(rule: OperatingRule, states: (name: string) => readonly string[]): Verdict {
  const ended = rule.until ? holds(rule.until, states) : false;
  return all([holds(rule.when, states), ended === undefined ? undefined : !ended]);
}

/** States that a name of a module's rule may be in, the one at nominal values first; a module without power tells nothing: a datum decoded from a pin, else a condition of the situation. */
export function scanStates(
  wiring: Wiring,
  situation: Situation,
  { network, on }: Pick<Settled, 'network' | 'on'>,
  id: string,
  data: Module,
  name: string,
): readonly string[] {
  const datum = data.scanData.get(name);
  if (datum && !on.has(id)) return [];
  if (!datum) return stateOf(situation, name);
  if (datum.follows) return stateOf(situation, datum.follows.text);
  return decoded(wiring, network, id, data, datum);
}

/** What a voltage that lies in no state of a datum counts as; no author can write it. */
const noState = '';

/** Every state that the pin's voltage may stand for over its range, `noState` where part of it lies in none. */
function decoded(wiring: Wiring, network: Network, id: string, data: Module, datum: ScanDatum): readonly string[] {
  const pin = wiring.terminals.get(`${id}.${datum.from?.text}`)?.own;
  const ground = wiring.terminals.get(`${id}.${data.ground?.text}`)?.own ?? frame;
  if (pin === undefined) return [];
  const reading = read(network, { measure: 'voltage', red: pin, black: ground, inputOhms: Number.POSITIVE_INFINITY });
  const { low, high } = reading.state === 'number' ? reading.attained : { low: 0, high: 0 };
  const nominal = reading.state === 'number' ? reading.nominal : 0;
  const reaches = (from: number, to: number) =>
    datum.states.filter(s => s.limit && s.limit.low <= to && s.limit.high >= from);
  const met = reaches(low, high);
  const whole = met.some(s => s.limit!.low <= low && s.limit!.high >= high);
  const first = reaches(nominal, nominal)[0]?.name.text ?? noState;
  return whole && met.length === 1 ? [first] : [...new Set([first, ...met.map(s => s.name.text), noState])];
}
