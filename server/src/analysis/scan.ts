import type { Network } from '../circuit/network.ts';
import { type NumberReading, read } from '../circuit/reading.ts';
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
  const pin = wiring.terminals.get(`${id}.${datum.from?.text}`)?.own;
  const ground = wiring.terminals.get(`${id}.${data.ground?.text}`)?.own ?? frame;
  if (pin === undefined) return { states: [] };
  const reading = read(network, { measure: 'voltage', red: pin, black: ground, inputOhms: Number.POSITIVE_INFINITY });
  const { low, nominal, high } = reading.state === 'number' ? reading : { low: 0, nominal: 0, high: 0 };
  const reaches = (from: number, to: number) =>
    datum.states.filter(s => s.limit && s.limit.low <= to && s.limit.high >= from);
  const met = reaches(low, high);
  const whole = met.some(s => s.limit!.low <= low && s.limit!.high >= high);
  const first = reaches(nominal, nominal)[0]?.name.text ?? noState;
  const states = whole && met.length === 1 ? [first] : [...new Set([first, ...met.map(s => s.name.text), noState])];
  return reading.state === 'number' ? { states, reading } : { states };
}
