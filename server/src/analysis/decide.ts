import { reachOf } from '../circuit/bends/reach.ts';
import type { Holding } from '../circuit/bends/straighten.ts';
import type { Box } from '../circuit/box.ts';
import type { Bent, Network } from '../circuit/network.ts';
import { quickLook } from '../circuit/quick-look.ts';
import { type NumberReading, type Reading, read, readCheaply } from '../circuit/reading.ts';
import { existsIn, type Test } from '../model/common.ts';
import type { Module, OperatingRule } from '../model/parts.ts';
import type { VoltageSense } from './lower/surroundings.ts';
import type { Wiring } from './lower/wiring.ts';
import { scan, scanNominal } from './scan.ts';
import type { Situation } from './situation.ts';
import { all, any, holds, type Verdict } from './test.ts';

/** What one relay, module, output or bent part does, decided by the network that all the others make. */
export interface Decision {
  readonly name: string;
  /** What it does at nominal values: 0 off, 1 on, or the segment of a bent part. */
  readonly nominal: number;
  /** What it may do over all tolerances, the one at nominal values first. */
  readonly options: readonly number[];
  /** The readings that decide it. */
  readonly readings: readonly NumberReading[];
  /** Once it is on it takes less to keep it on. */
  readonly stays?: boolean;
}

/** `network` is straight, and without bends. */
export interface Moment {
  readonly wiring: Wiring;
  readonly situation: Situation;
  readonly network: Network;
  readonly states: ReadonlyMap<string, number>;
}

/** What it does over all tolerances costs much more than what it does at nominal values, and is found out when it is asked for. */
class Open implements Decision {
  readonly name: string;
  readonly nominal: number;
  readonly stays: boolean;
  readonly #find: () => Found;
  #found: Found | undefined;

  constructor(name: string, nominal: number, stays: boolean, find: () => Found) {
    this.name = name;
    this.nominal = nominal;
    this.stays = stays;
    this.#find = find;
  }

  get options(): readonly number[] {
    this.#found ??= this.#find();
    return this.#found.options;
  }

  get readings(): readonly NumberReading[] {
    this.#found ??= this.#find();
    return this.#found.readings;
  }
}

type Found = Pick<Decision, 'options' | 'readings'>;

/** Relays and the power of modules: on once a voltage passes a threshold, off again below another. */
export function decideSense({ network, states }: Moment, sense: VoltageSense): Decision {
  const { name, red, black, aboveV, dropV = aboveV, eitherWay } = sense;
  const threshold = isOn(states, name) ? dropV : aboveV;
  const stays = dropV < aboveV;
  const isAbove = (range: { low: number; high: number }, nominal?: boolean) => {
    const { low, high } = eitherWay ? sizes(range) : range;
    return options(low >= threshold, nominal, high < threshold);
  };
  const at = { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY } as const;
  const asRead = (reading: Reading): Found & { nominal: number } => {
    if (reading.state !== 'number') return { nominal: 0, options: [0], readings: [] };
    const found = isAbove(reading, (eitherWay ? Math.abs(reading.nominal) : reading.nominal) >= threshold);
    return { nominal: found[0]!, options: found, readings: [reading] };
  };
  const look = quickLook(network);
  const volts = look?.between(red, black);
  if (look && volts === undefined) return { name, nominal: 0, options: [0], readings: [], stays };
  const above = (eitherWay ? Math.abs(volts ?? 0) : (volts ?? 0)) - threshold;
  if (!look || Math.abs(above) < nearThreshold * (1 + threshold)) return { name, stays, ...asRead(read(network, at)) };
  return new Open(name, Number(above > 0), stays, () => {
    const cheap = readCheaply(network, at);
    if (cheap) return asRead(cheap);
    const surely = look.range(red, black);
    const found = surely ? isAbove(surely) : [];
    return found.length === 1 ? { options: found, readings: [] } : asRead(read(network, at));
  });
}

/** Volts beside a threshold, at which nominal values found in two ways need not be on one side of it. */
const nearThreshold = 1e-9;

/** A coil does not mind which way round. */
function sizes({ low, high }: { low: number; high: number }): { low: number; high: number } {
  const ends = [Math.abs(low), Math.abs(high)];
  return { low: low <= 0 && high >= 0 ? 0 : Math.min(...ends), high: Math.max(...ends) };
}

/** Nothing where it is open and the nominal state is not given. */
function options(surely: boolean, nominal: boolean | undefined, surelyNot: boolean): readonly number[] {
  if (surely) return [1];
  if (surelyNot) return [0];
  if (nominal === undefined) return [];
  return nominal ? [1, 0] : [0, 1];
}

/** The outputs of a module that its operating rules drive. */
export function decideOutputs(moment: Moment, id: string, data: Module): readonly Decision[] {
  const { wiring, situation, network, states } = moment;
  const running = isOn(states, id);
  const known = new Map<string, ReturnType<typeof scan>>();
  const scanned = (name: string) => {
    const found = known.get(name) ?? scan(wiring, situation, network, running, [id, data], name);
    known.set(name, found);
    return found;
  };
  const atNominal = new Map<string, readonly string[]>();
  const nominalOf = (name: string) => {
    const quick = () => (running ? scanNominal(wiring, network, [id, data], name) : undefined);
    const before = atNominal.get(name) ?? known.get(name)?.states.slice(0, 1);
    if (before) return before;
    const state = quick();
    const found = state === undefined ? scanned(name).states.slice(0, 1) : [state];
    atNominal.set(name, found);
    return found;
  };
  const decisions: Decision[] = [];
  for (const pin of data.pins.values()) {
    if (pin.output !== 'low side' && pin.output !== 'high side') continue;
    const name = `${id}.${pin.id}`;
    const rules = data.rules.filter(
      rule => existsIn(rule, wiring.variant) && rule.outputs.some(o => o.pin.text === pin.id && o.on),
    );
    const driven = (statesOf: (name: string) => readonly string[]): Verdict =>
      running && any(rules.map(rule => inForce(data, rule, isOn(states, name), statesOf)));
    const nominal = driven(nominalOf) === true;
    const stays = rules.some(rule => rule.until !== undefined);
    const find = () => {
      const asked = new Set<string>();
      const verdict = driven(of => {
        asked.add(of);
        return scanned(of).states;
      });
      const readings = [...asked].flatMap(of => {
        const found = scanned(of);
        return found.reading && found.states.length > 1 ? [found.reading] : [];
      });
      return { options: options(verdict === true, nominal, verdict === false), readings };
    };
    decisions.push(new Open(name, Number(nominal), stays, find));
  }
  return decisions;
}

/**
 * A rule is in force while its `when` holds and its `until` does not. With an `until` it also stays in force once it is, whatever has
 * become of its `when`.
 */
function inForce(
  data: Module,
  rule: OperatingRule,
  already: boolean,
  states: (name: string) => readonly string[],
): Verdict {
  const when = cheapestFirst(rule.when, data);
  if (!rule.until) return holds(when, states);
  const ended = holds(rule.until, states);
  const begun = already ? true : holds(when, states);
  return all([begun, ended === undefined ? undefined : !ended]);
}

/** What is known from the situation before what has to be decoded from a pin. */
function cheapestFirst(test: Test, { scanData }: Module): Test {
  const known = ordered.get(test);
  if (known) return known;
  const cost = ({ name }: Test[number][number]) => Number(scanData.get(name.text)?.from !== undefined);
  const fresh = test.map(parts => [...parts].sort((a, b) => cost(a) - cost(b)));
  ordered.set(test, fresh);
  return fresh;
}

const ordered = new WeakMap<Test, Test>();

export function decideBent({ network }: Moment, bent: Bent, holding: Holding, box: Box): Decision {
  const at = Math.min(holding.get(bent.id) ?? 0, bent.segments.length - 1);
  return new Open(bent.id, at, false, () => {
    const { segments, reading } = reachOf(bent, network, holding, box);
    return { options: segments, readings: reading ? [reading] : [] };
  });
}

export function isOn(states: ReadonlyMap<string, number>, name: string): boolean {
  return (states.get(name) ?? 0) > 0;
}
