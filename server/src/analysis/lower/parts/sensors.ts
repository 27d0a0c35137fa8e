import { parseQuantity } from '../../../base/quantity/quantity.ts';
import { exact, type Ranged } from '../../../base/ranged.ts';
import { loopSegments } from '../../../circuit/curves/current-loop.ts';
import { sensorValue } from '../../../circuit/curves/sensor.ts';
import type { NodeId } from '../../../circuit/network.ts';
import type { Sensor } from '../../../model/parts.ts';
import { holds } from '../../test.ts';
import { noElements, type PartElements, type Surroundings } from '../surroundings.ts';
import { valueNow } from '../value-now.ts';

/** The wires of a thermocouple, where nothing better is known; a voltmeter does not feel them (common practice, no source). */
const coupleOhms = exact(5);
/** From supply to ground inside a ratiometric sensor: 5 mA at 5 V, as such sensors take (common practice, no source). */
const ratiometricOhms = exact(1000);
/** Below this between its terminals a transmitter cannot set its current any more (common practice, no source). */
const usualLeastV = 8;

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
      const at = numberNow(data.follows?.text, around);
      const is = at === undefined || !data.curve ? undefined : sensorValue(data.curve, at, around.temperatureC);
      if (!is) return undefined;
      if (data.kind !== 'thermocouple') out.elements.push({ kind: 'resistance', id, a, b, ohms: is });
      else {
        const inside = around.fresh();
        out.elements.push({ kind: 'voltage', id, plus: a, minus: inside, volts: is });
        out.elements.push({ kind: 'resistance', id: `${id} inside`, a: inside, b, ohms: coupleOhms });
      }
      return out;
    }
    case 'potentiometer': {
      const share = shareNow(data.follows?.text, around);
      const track = valueNow(data.ohms, around);
      if (share === undefined || !track || c === undefined) return undefined;
      divide(out, id, [a, b, c], share, track);
      return out;
    }
    case 'ratiometric sensor': {
      const share = shareNow(data.follows?.text, around);
      if (share === undefined || !data.span || c === undefined) return undefined;
      const ratio = data.span.low + share * (data.span.high - data.span.low);
      divide(out, id, [a, b, c], 1 - ratio, data.ohms ?? ratiometricOhms);
      return out;
    }
    case 'current loop': {
      const share = shareNow(data.follows?.text, around);
      if (share === undefined || !data.span) return undefined;
      const amps = data.span.low + share * (data.span.high - data.span.low);
      if (!(amps > 0)) return out;
      out.bends.push({ id, a, b, segments: loopSegments(amps, data.leastV ?? usualLeastV) });
      return out;
    }
    case 'hall sensor':
      if (data.onWhen && c !== undefined && holds(data.onWhen, name => around.stateOf(name)) === true) {
        if (data.onOhms) out.elements.push({ kind: 'resistance', id, a: b, b: c, ohms: data.onOhms });
        else out.joins.push([b, c]);
      }
      return out;
  }
}

/** A track from the first terminal to the last with the middle one on it, that share of it away from the first. One tolerance for both parts. */
function divide(
  out: PartElements,
  id: string,
  [first, middle, last]: readonly [NodeId, NodeId, NodeId],
  share: number,
  track: Ranged,
): void {
  const part = (which: string, a: NodeId, b: NodeId, of: number) => {
    if (of <= 0) out.joins.push([a, b]);
    else {
      const ohms = { low: track.low * of, nominal: track.nominal * of, high: track.high * of };
      out.elements.push({ kind: 'resistance', id: `${id} ${which}`, a, b, ohms, tied: id });
    }
  };
  part('first part', first, middle, share);
  part('second part', middle, last, 1 - share);
}

/** The number of a condition in base units: as the system file has it at rest, or as a step writes it. */
function numberNow(name: string | undefined, around: Surroundings): number | undefined {
  const [text] = name === undefined ? [] : around.stateOf(name);
  if (text === undefined) return undefined;
  return (
    parseQuantity(text).value?.value ?? (text.trim() !== '' && Number.isFinite(Number(text)) ? Number(text) : undefined)
  );
}

/** How far the number of a condition is on its way from its lowest to its highest, 0 to 1. */
function shareNow(name: string | undefined, around: Surroundings): number | undefined {
  const now = numberNow(name, around);
  const span = name === undefined ? undefined : around.spanOf(name);
  if (now === undefined || !span || !(span.to > span.from)) return undefined;
  return Math.min(1, Math.max(0, (now - span.from) / (span.to - span.from)));
}
