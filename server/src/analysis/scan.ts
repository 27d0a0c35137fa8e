import type { Network, NodeId } from '../circuit/network.ts';
import { quickLook } from '../circuit/quick-look.ts';
import { type NumberReading, read, readCheaply } from '../circuit/reading.ts';
import type { Module, ScanDatum } from '../model/parts.ts';
import { frame, type Wiring } from './lower/wiring.ts';
import { type Situation, stateOf } from './situation.ts';

/** What a voltage that lies in no state of a datum counts as; no author can write it. */
const noState = '';

/** What a module may make of a name: every state that the tolerances leave open, the one at nominal values first. */
export interface Scanned {
  readonly states: readonly string[];
  /** The reading behind them, where there is one. */
  readonly reading?: NumberReading;
}

/**
 * The state of a name in a module's rule: a datum decoded from a pin, which a module without power does not tell; else a condition of
 * the situation.
 */
export function scan(
  wiring: Wiring,
  situation: Situation,
  network: Network,
  isPowered: boolean,
  [id, data]: readonly [id: string, data: Module],
  name: string,
): Scanned {
  const datum = data.scanData.get(name);
  if (!datum) return { states: stateOf(situation, name) };
  if (!isPowered) return { states: [] };
  if (datum.follows) return { states: stateOf(situation, datum.follows.text) };
  return decoded(wiring, network, id, data, datum);
}

/** Every state that the pin's voltage may stand for over its range, `noState` where part of it lies in none. */
function decoded(wiring: Wiring, network: Network, id: string, data: Module, datum: ScanDatum): Scanned {
  const pin = pinOf(wiring, id, datum);
  if (pin === undefined) return { states: [] };
  const ground = groundOf(wiring, id, data);
  const at = { measure: 'voltage', red: pin, black: ground, inputOhms: Number.POSITIVE_INFINITY } as const;
  const cheap = readCheaply(network, at);
  const surely = cheap ? undefined : quickLook(network)?.range(pin, ground);
  const only = surely ? statesIn(datum, surely, surely.low) : [];
  if (only.length === 1) return { states: only };
  const reading = cheap ?? read(network, at);
  return reading.state === 'number'
    ? { states: statesIn(datum, reading, reading.nominal), reading }
    : { states: statesIn(datum, { low: 0, high: 0 }, 0) };
}

/** The state at nominal values, where much less than a reading tells it. */
export function scanNominal(
  wiring: Wiring,
  network: Network,
  [id, data]: readonly [id: string, data: Module],
  name: string,
): string | undefined {
  const datum = data.scanData.get(name);
  const pin = datum && !datum.follows ? pinOf(wiring, id, datum) : undefined;
  const look = pin === undefined ? undefined : quickLook(network);
  if (!look) return undefined;
  const volts = look.between(pin!, groundOf(wiring, id, data)) ?? 0;
  const slack = nearLimit * (1 + Math.abs(volts));
  const [state, ...others] = statesIn(datum!, { low: volts - slack, high: volts + slack }, volts);
  return others.length === 0 ? state : undefined;
}

/** Volts beside a limit, at which nominal values found in two ways need not be on one side of it. */
const nearLimit = 1e-9;

function statesIn(
  datum: ScanDatum,
  { low, high }: { readonly low: number; readonly high: number },
  nominal: number,
): readonly string[] {
  const reaches = (from: number, to: number) =>
    datum.states.filter(s => s.limit && s.limit.low <= to && s.limit.high >= from);
  const met = reaches(low, high);
  const whole = met.some(s => s.limit!.low <= low && s.limit!.high >= high);
  const first = reaches(nominal, nominal)[0]?.name.text ?? noState;
  return whole && met.length === 1 ? [first] : [...new Set([first, ...met.map(s => s.name.text), noState])];
}

function pinOf(wiring: Wiring, id: string, datum: ScanDatum): NodeId | undefined {
  return wiring.terminals.get(`${id}.${datum.from?.text}`)?.own;
}

function groundOf(wiring: Wiring, id: string, data: Module): NodeId {
  return wiring.terminals.get(`${id}.${data.ground?.text}`)?.own ?? frame;
}
