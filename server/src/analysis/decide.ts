import { reachOf } from '../circuit/bends/reach.ts';
import type { Holding } from '../circuit/bends/straighten.ts';
import type { Box } from '../circuit/box.ts';
import type { Bent, Network } from '../circuit/network.ts';
import { type NumberReading, read } from '../circuit/reading.ts';
import { existsIn, type Test } from '../model/common.ts';
import type { Module, OperatingRule } from '../model/parts.ts';
import type { VoltageSense } from './lower/surroundings.ts';
import type { Wiring } from './lower/wiring.ts';
import { scan } from './scan.ts';
import type { Situation } from './situation.ts';
import { all, any, holds, type Verdict } from './test.ts';

/** What one relay, module, output or bent part does, decided by the network that all the others make. */
export interface Decision {
  readonly name: string;
  /** What it may do over all tolerances, the one at nominal values first: 0 off, 1 on, or the segment of a bent part. */
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

/** Relays and the power of modules: on once a voltage passes a threshold, off again below another. */
export function decideSense({ network, states }: Moment, sense: VoltageSense): Decision {
  const { name, red, black, aboveV, dropV = aboveV, eitherWay } = sense;
  const threshold = isOn(states, name) ? dropV : aboveV;
  const reading = read(network, { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY });
  if (reading.state !== 'number') return { name, options: [0], readings: [] };
  const [low, nominal, high] = eitherWay ? sizes(reading) : [reading.low, reading.nominal, reading.high];
  const found = options(low >= threshold, nominal >= threshold, high < threshold);
  return { name, options: found, readings: [reading], stays: dropV < aboveV };
}

/** A coil does not mind which way round. */
function sizes({ low, nominal, high }: NumberReading): [number, number, number] {
  const ends = [Math.abs(low), Math.abs(high)];
  return [low <= 0 && high >= 0 ? 0 : Math.min(...ends), Math.abs(nominal), Math.max(...ends)];
}

function options(surely: boolean, nominal: boolean, surelyNot: boolean): readonly number[] {
  if (surely) return [1];
  if (surelyNot) return [0];
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
  const decisions: Decision[] = [];
  for (const pin of data.pins.values()) {
    if (pin.output !== 'low side' && pin.output !== 'high side') continue;
    const name = `${id}.${pin.id}`;
    const rules = data.rules.filter(
      rule => existsIn(rule, wiring.variant) && rule.outputs.some(o => o.pin.text === pin.id && o.on),
    );
    const asked = new Set<string>();
    const driven = (statesOf: (name: string) => readonly string[]): Verdict =>
      running && any(rules.map(rule => inForce(data, rule, isOn(states, name), statesOf)));
    const verdict = driven(of => {
      asked.add(of);
      return scanned(of).states;
    });
    const nominal = driven(of => scanned(of).states.slice(0, 1)) === true;
    const readings = [...asked].flatMap(of => {
      const found = scanned(of);
      return found.reading && found.states.length > 1 ? [found.reading] : [];
    });
    const stays = rules.some(rule => rule.until !== undefined);
    decisions.push({ name, options: options(verdict === true, nominal, verdict === false), readings, stays });
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
  const { segments, reading } = reachOf(bent, network, holding, box);
  return { name: bent.id, options: segments, readings: reading ? [reading] : [] };
}

export function isOn(states: ReadonlyMap<string, number>, name: string): boolean {
  return (states.get(name) ?? 0) > 0;
}
