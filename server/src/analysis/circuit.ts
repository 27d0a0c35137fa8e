import { BoundedMap } from '../base/bounded-map.ts';
import type { Element, Network } from '../circuit/network.ts';
import { read } from '../circuit/reading.ts';
import { solve } from '../circuit/solve.ts';
import { existsIn } from '../model/common.ts';
import { ownStates } from '../model/parts.ts';
import type { Meter } from '../model/procedure.ts';
import type { MeterPlace } from '../model/step.ts';
import type { System } from '../model/system.ts';
import { belongsTo } from './belongs-to.ts';
import { datumNamed } from './datum-named.ts';
import { isOn } from './decide.ts';
import type { Effect } from './effect.ts';
import type { Circuit, MeterReading, ParallelPath, Trouble, Working } from './electrical.ts';
import { type AfterBlowing, settleBlowing } from './faults/blown.ts';
import { pointNames } from './lower/leads.ts';
import type { Wiring } from './lower/wiring.ts';
import { frame, wire } from './lower/wiring.ts';
import { inAll, measure, toMeterReading } from './measure.ts';
import { parallelPath } from './parallel.ts';
import { potentialsIn } from './potentials.ts';
import { scan } from './scan.ts';
import { type Settling, settle } from './settle.ts';
import { type Situation, situation } from './situation.ts';
import { stayingNames } from './staying.ts';
import { troublesIn } from './troubles.ts';
import { worksIn } from './works.ts';

/** Makes a circuit whose readings are kept: equal questions are solved once. */
export function makeCircuit(system: System, variant: string): Circuit {
  const wiring = wire(system, variant);
  // Settled networks share their elements, and still are large; what was read in them is small, and kept for longer.
  const settlings = new BoundedMap<string, AfterBlowing>(64);
  const states = new BoundedMap<string, ReadonlyMap<string, number>>(2_000);
  const readings = new Memory<MeterReading>();
  const beside = new Memory<ParallelPath | undefined>();
  const shown = new Memory<readonly string[]>();
  const currents = new Memory<number>();
  const working = new Memory<readonly Working[]>();
  const found = new BoundedMap<string, readonly Trouble[]>(1_000);
  const numberOf = new Numbers();
  const successors = new WeakMap<Situation, Map<string, Situation>>();
  const situations = new Map<string, Situation>();
  const one = (now: Situation): Situation => {
    const known = situations.get(now.key);
    if (!known) situations.set(now.key, now);
    return known ?? now;
  };
  const rest = one(restSituation(wiring));
  const points = pointNames(wiring);

  const afterBlowing = (now: Situation, effect?: Effect, extra: readonly Element[] = []): AfterBlowing => {
    const more = extra.map(e => (e.kind === 'resistance' ? `#${e.a}-${e.b}-${e.ohms.nominal}` : ''));
    const key = `${numberOf.situation(now)} ${effect ? numberOf.effect(effect) : ''}${more.join('')}`;
    const settleWith = (all?: Effect) => settle(wiring, now, { extra, effect: all, held: now.held });
    return settlings.remember(key, () =>
      effect ? settleBlowing(wiring, effect, settleWith) : { settling: settleWith(), blown: [] },
    );
  };
  const settled = (...asked: Parameters<typeof afterBlowing>): Settling => afterBlowing(...asked).settling;
  const here = <T>(memory: Memory<T>, now: Situation, key: string, effect: Effect | undefined, make: () => T): T =>
    effect
      ? memory.faulty.remember(`${numberOf.situation(now)} ${numberOf.effect(effect)} ${key}`, make)
      : memory.healthy.remember(now.key, () => new BoundedMap(mostPlaces)).remember(key, make);
  const measured = (at: MeterPlace, meter: Meter, now: Situation, effect?: Effect): MeterReading =>
    here(readings, now, meterKey(at, meter), effect, () =>
      measure(wiring, extra => settled(now, effect, extra), at, meter, now),
    );
  const nominal = (now: Situation, effect?: Effect): Network | undefined => {
    const outcome = settled(now, effect);
    return 'settled' in outcome ? outcome.settled[0]?.network : undefined;
  };
  const scanned = (module: string, datum: string, now: Situation, effect?: Effect): readonly string[] => {
    const data = wiring.parts.find(p => p.part.id === module)?.data;
    const outcome = settled(now, effect);
    if (data?.kind !== 'module' || !('settled' in outcome)) return [];
    const all = outcome.settled.map(({ network, states }) =>
      scan(wiring, now, network, isOn(states, module), [module, data], datum),
    );
    return [...new Set(all.flatMap(one => (one.states.length > 0 ? one.states : [''])))];
  };
  const scanStates = (module: string, datum: string, now: Situation, effect?: Effect) =>
    here(shown, now, `${module}#${datum}`, effect, () => scanned(module, datum, now, effect));

  const mayStay = stayingNames(wiring);
  const onAt = (now: Situation, effect?: Effect): ReadonlyMap<string, number> =>
    states.remember(effect ? `${now.key}#${effect.key}` : now.key, () => {
      const outcome = settled(now, effect);
      return 'settled' in outcome ? outcome.settled[0]!.states : new Map();
    });
  const become = (before: Situation, after: Situation, effect?: Effect): Situation => {
    if (mayStay.size === 0) return after;
    const wasOn = onAt(before, effect);
    const lost = [...mayStay].filter(name => isOn(wasOn, name) && !isOn(onAt(after, effect), name));
    if (lost.length === 0) return after;
    const trial = onAt(situation(after.states, after.apart, new Set(lost)), effect);
    const held = lost.filter(name => isOn(trial, name));
    return held.length === 0 ? after : situation(after.states, after.apart, new Set(held));
  };

  return {
    variant,
    points,
    rest,
    become: (before, states, apart, effect) => one(become(before, situation(states, apart), effect)),
    set(before, name, state, effect) {
      const make = () => one(become(before, situation(new Map(before.states).set(name, state), before.apart), effect));
      if (effect) return make();
      const known = successors.get(before) ?? new Map<string, Situation>();
      successors.set(before, known);
      const setting = `${name}=${state}`;
      const then = known.get(setting) ?? make();
      known.set(setting, then);
      return then;
    },
    read: measured,
    parallel(at, now, effect) {
      if (at.measure !== 'resistance' && at.measure !== 'continuity') return undefined;
      return here(beside, now, placeKey(at), effect, () => {
        const outcome = settled(now, effect);
        return 'settled' in outcome ? parallelPath(wiring, outcome.settled[0]!, at, now) : undefined;
      });
    },
    differs: (at, meter, a, b) => a.key !== b.key && !sameReading(measured(at, meter, a), measured(at, meter, b)),
    scan(module, datum, now, effect) {
      const found = scanStates(module, datum, now, effect);
      return found.length === 1 ? found[0] || undefined : undefined;
    },
    scanStates,
    datumNamed: name => datumNamed(wiring, name),
    works: (name, now, effect) =>
      here(working, now, name, effect, () => {
        const outcome = settled(now, effect);
        return 'settled' in outcome ? worksIn(wiring, outcome.settled, name) : [];
      }),
    scanVoltage(module, datum, now, effect) {
      const data = wiring.parts.find(p => p.part.id === module)?.data;
      const from = data?.kind === 'module' ? data.scanData.get(datum)?.from : undefined;
      const pin = from && wiring.terminals.get(`${module}.${from.text}`)?.own;
      if (data?.kind !== 'module' || pin === undefined) return undefined;
      const ground = wiring.terminals.get(`${module}.${data.ground?.text}`)?.own ?? frame;
      const inside = { measure: 'voltage', red: pin, black: ground, inputOhms: Number.POSITIVE_INFINITY } as const;
      return inAll(settled(now, effect), ({ network }) => toMeterReading(read(network, inside), 'voltage'));
    },
    currentThrough: (name, now, effect) =>
      here(currents, now, name, effect, () => flowingThrough(name, nominal(now, effect))),
    potentials(now, effect) {
      const outcome = settled(now, effect);
      return 'settled' in outcome ? potentialsIn(wiring, outcome.settled[0]!) : undefined;
    },
    blown: (now, effect) => afterBlowing(now, effect).blown,
    troubles: now =>
      found.remember(now.key, () => {
        const network = nominal(now);
        return network ? troublesIn(network, wiring) : [];
      }),
  };
}

/** Places of one situation that are kept: all that a procedure of a thousand steps may have. */
const mostPlaces = 10_000;
/** Of machines with a fault there are many, each asked about for a short while. */
const mostFaulty = 4_000;

/** What was found, of the machine without a fault by situation. */
class Memory<T> {
  readonly healthy = new BoundedMap<string, BoundedMap<string, T>>(1_000);
  readonly faulty = new BoundedMap<string, T>(mostFaulty);
}

/** Keys of situations and effects are long; a number stands for each in the keys that are made of them. */
class Numbers {
  readonly #byKey = new BoundedMap<string, number>(10_000);
  readonly #known = new WeakMap<Situation | Effect, number>();
  #next = 0;

  situation(now: Situation): number {
    return this.#of(now, 's');
  }

  effect(effect: Effect): number {
    return this.#of(effect, 'e');
  }

  #of(one: Situation | Effect, kind: string): number {
    const before = this.#known.get(one);
    if (before !== undefined) return before;
    const number = this.#byKey.remember(kind + one.key, () => this.#next++);
    this.#known.set(one, number);
    return number;
  }
}

const flows = new WeakMap<Network, ReadonlyMap<string, number>>();

/** The largest nominal current of what belongs to the name; 0 where the network has no solution. */
function flowingThrough(name: string, network: Network | undefined): number {
  const flowing = network && (flows.get(network) ?? solve(network).value?.currents);
  if (!network || !flowing) return 0;
  flows.set(network, flowing);
  const mine = [...flowing].filter(([id]) => belongsTo(id, name));
  return mine.reduce((most, [, amps]) => Math.max(most, Math.abs(amps)), 0);
}

/** Everything at rest: first states, numbers at their rest, nothing apart. */
function restSituation({ system, variant, parts }: Wiring): Situation {
  const states = new Map<string, string>();
  for (const condition of system.conditions.values()) {
    states.set(condition.id, condition.number?.rest ?? condition.states[0]?.text ?? '');
  }
  for (const { part, data } of parts) {
    const [first] = existsIn(part, variant) ? ownStates(data) : [];
    if (first !== undefined) states.set(part.id, first);
  }
  return situation(states, new Set());
}

function sameReading(a: MeterReading, b: MeterReading): boolean {
  if (a.state !== 'number' || b.state !== 'number') return a.state === b.state;
  // An end may be infinite, over the limit of the meter.
  const near = (x: number, y: number) => x === y || Math.abs(x / y - 1) <= 1e-9 || Math.abs(x - y) <= 1e-9;
  return near(a.low, b.low) && near(a.high, b.high);
}

function meterKey(at: MeterPlace, meter: Meter): string {
  return `${placeKey(at)}#${settingsOf(meter)}`;
}

function placeKey(at: MeterPlace): string {
  const before = places.get(at);
  if (before !== undefined) return before;
  const lead = (l: MeterPlace['red']) => l && `${l.point.text}|${l.side?.text ?? ''}|${l.backProbe}`;
  const key = [at.measure, lead(at.red), lead(at.black), at.around?.text ?? ''].join('#');
  places.set(at, key);
  return key;
}

const places = new WeakMap<MeterPlace, string>();

/** Meters with equal settings have equal numbers. */
function settingsOf(meter: Meter): number {
  const before = settings.get(meter);
  if (before !== undefined) return before;
  const number = meters.remember(JSON.stringify(meter), () => nextMeter++);
  settings.set(meter, number);
  return number;
}

const settings = new WeakMap<Meter, number>();
const meters = new BoundedMap<string, number>(1_000);
let nextMeter = 0;
