import { parseQuantity } from '../../../base/quantity/quantity.ts';
import { exact, isExact, type Ranged } from '../../../base/ranged.ts';
import type { SensorSignal } from '../../../base/sensor-curve.ts';
import { currentLoop } from '../../../circuit/curves/current-loop.ts';
import { isResistance, sensorValue } from '../../../circuit/curves/sensor.ts';
import { signalAt } from '../../../circuit/curves/signal.ts';
import type { NodeId } from '../../../circuit/network.ts';
import type { Sensor } from '../../../model/parts.ts';
import type { ConditionNumber } from '../../../model/system.ts';
import { holds } from '../../test.ts';
import { noElements, type PartElements, type Surroundings } from '../surroundings.ts';
import { valueNow } from '../value-now.ts';

/** The wires of a thermocouple, where nothing better is known; a voltmeter does not feel them (common practice, no source). */
const coupleOhms = exact(5);
/** From supply to ground inside a ratiometric sensor: 5 mA at 5 V, as such sensors take (common practice, no source). */
const ratiometricOhms = exact(1000);
/** Below this between its terminals a transmitter cannot set its current any more (common practice, no source). */
const usualLoopV = 8;
/** What a hall sensor needs between supply and ground: data sheets of those for vehicles go from 3.8 V to 24 V (edition of 1997). */
const usualHallV = 3.8;

/** Sensors at the number that the condition has which they follow; undefined where it has none, or one beyond the curve. */
export function sensorElements(id: string, data: Sensor, around: Surroundings): PartElements | undefined {
  const nodes = data.terminals.map(t => around.node(t.text));
  const out = noElements();
  const [a, b, c] = nodes;
  if (a === undefined || b === undefined) return out;
  switch (data.kind) {
    case 'thermistor':
    case 'rtd':
    case 'thermocouple': {
      const at = followed(data.follows?.text, around)?.now;
      const is = at === undefined || !data.curve ? undefined : sensorValue(data.curve, at, around.temperatureC);
      if (!is || (data.kind !== 'thermocouple' && !isResistance(is))) return undefined;
      if (data.kind !== 'thermocouple') out.elements.push({ kind: 'resistance', id, a, b, ohms: is });
      else {
        const inside = around.fresh();
        out.elements.push({ kind: 'voltage', id, plus: a, minus: inside, volts: is });
        out.elements.push({ kind: 'resistance', id: `${id} inside`, a: inside, b, ohms: coupleOhms });
      }
      return out;
    }
    case 'potentiometer': {
      const track = valueNow(data.ohms, around);
      const share = signalNow({ span: wholeTrack, accuracy: data.accuracy }, data.follows?.text, around);
      if (!share || !track || c === undefined) return undefined;
      divide(out, id, data, share, track, around);
      return out;
    }
    case 'ratiometric sensor': {
      const ratio = data.signal && signalNow(data.signal, data.follows?.text, around);
      if (!ratio || c === undefined) return undefined;
      const above = { low: 1 - ratio.high, nominal: 1 - ratio.nominal, high: 1 - ratio.low };
      divide(out, id, data, above, data.ohms ?? ratiometricOhms, around);
      return out;
    }
    case 'current loop': {
      const amps = data.signal && signalNow(data.signal, data.follows?.text, around);
      if (!amps) return undefined;
      const loop = currentLoop(id, a, b, amps, data.leastV ?? usualLoopV);
      if (loop) out.bends.push(loop);
      return out;
    }
    case 'hall sensor': {
      if (!data.onWhen || c === undefined) return out;
      out.senses.push({ name: id, red: a, black: c, aboveV: data.leastV ?? usualHallV });
      if (!around.isOn(id) || holds(data.onWhen, name => around.stateOf(name)) !== true) return out;
      if (data.onOhms) out.elements.push({ kind: 'resistance', id, a: b, b: c, ohms: data.onOhms });
      else out.joins.push([b, c]);
      return out;
    }
  }
}

const wholeTrack = { low: 0, high: 1 };

/**
 * A track from the first terminal to the last with the middle one on it, that share of the track away from the first.
 *
 * The tolerance of the track is one for both sides. How far the middle may be off is left to each side by itself: what the track divides
 * has its ends where one side is shortest and the other longest, and there the two make up the whole track again.
 */
function divide(out: PartElements, id: string, sensor: Sensor, share: Ranged, track: Ranged, around: Surroundings) {
  const [first, middle, last] = sensor.terminals.map(({ text }) => ({ text, node: around.node(text) }));
  const [low, nominal, high] = [share.low, share.nominal, share.high].map(one => Math.min(1, Math.max(0, one)));
  side(first!, middle!, { low: low!, nominal: nominal!, high: high! });
  side(middle!, last!, { low: 1 - high!, nominal: 1 - nominal!, high: 1 - low! });

  function side(from: Terminal, to: Terminal, of: Ranged): void {
    const label = `${id} from ${from.text} to ${to.text}`;
    const [a, b] = [from.node!, to.node!];
    if (isExact(of)) resistance(label, a, b, product(of, track), id);
    else if (isExact(track)) resistance(label, a, b, product(of, track));
    else {
      const inside = around.fresh();
      const play = { low: 0, nominal: of.nominal - of.low, high: of.high - of.low };
      resistance(label, a, inside, product(exact(of.low), track), id);
      resistance(`${label}, accuracy`, inside, b, product(play, track));
    }
  }

  function resistance(label: string, a: NodeId, b: NodeId, ohms: Ranged, tied?: string): void {
    if (ohms.high > 0) out.elements.push({ kind: 'resistance', id: label, a, b, ohms, tied });
    else out.joins.push([a, b]);
  }
}

interface Terminal {
  readonly text: string;
  readonly node?: NodeId;
}

function product(a: Ranged, b: Ranged): Ranged {
  return { low: a.low * b.low, nominal: a.nominal * b.nominal, high: a.high * b.high };
}

/** The condition that is followed, and its number now in base units; nothing where that is not of its kind. */
function followed(name: string | undefined, around: Surroundings): (ConditionNumber & { now: number }) | undefined {
  const number = name === undefined ? undefined : around.numberOf(name);
  const [text] = name === undefined ? [] : around.stateOf(name);
  const now = number && text !== undefined ? parseQuantity(text, number.dimension).value?.value : undefined;
  return number && now !== undefined ? { ...number, now } : undefined;
}

function signalNow(signal: SensorSignal, name: string | undefined, around: Surroundings): Ranged | undefined {
  const number = followed(name, around);
  return number && signalAt(signal, number.now, number);
}
