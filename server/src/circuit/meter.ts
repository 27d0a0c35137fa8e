import { exact, type Ranged } from '../base/ranged.ts';
import { METER, type Probe } from './extract.ts';
import { type Element, type Network, type NodeId, withElements } from './network.ts';

/** What is measured, with the meter's own effect on the circuit. */
export type Measurement =
  /** Positive when the red lead is above the black one. `inputOhms` may be `Infinity`. */
  | { measure: 'voltage'; red: NodeId; black: NodeId; inputOhms: number }
  /**
   * Sources are dead: an ideal voltage source leaves its short, a current source nothing. Parallel paths count. The meter
   * shows OL when even the lowest resistance is above `overLimitOhms`.
   */
  | { measure: 'resistance'; red: NodeId; black: NodeId; leadsOhms: Ranged; overLimitOhms: number }
  /** The meter joins red and black; positive when current enters at red. `burdenOhms` may be 0. */
  | { measure: 'current'; red: NodeId; black: NodeId; burdenOhms: number }
  /**
   * The current of one element: of a resistance from `a` to `b`, of a current source from `from` to `to`, of a voltage
   * source what it delivers out of its plus terminal.
   */
  | { measure: 'clamp'; element: string };

/** The network with a voltmeter or ammeter connected, and where it is read. */
export function connectMeter(
  network: Network,
  measurement: Extract<Measurement, { measure: 'voltage' | 'current' }>,
): { network: Network; probe: Probe } {
  const { red, black } = measurement;
  if (measurement.measure === 'voltage') {
    const { inputOhms } = measurement;
    const probe: Probe = { kind: 'voltage', red, black };
    if (!Number.isFinite(inputOhms)) return { network, probe };
    return { network: withElements(network, [meterResistance(red, black, inputOhms)]), probe };
  }
  const probe: Probe = { kind: 'current', source: network.elements.length };
  // Current that enters at red is what the meter, as a source of 0 V, delivers at its plus terminal on the far side.
  if (measurement.burdenOhms === 0) return { network: withElements(network, [meterSource(black, red)]), probe };
  const inside = network.nodeCount;
  const meter = [meterSource(inside, red), meterResistance(inside, black, measurement.burdenOhms)];
  return { network: withElements({ ...network, nodeCount: inside + 1 }, meter), probe };
}

/** The network with a clamp around a resistance, as a source of 0 V in series with it; or around a voltage source. */
export function attachClamp(network: Network, element: Element): { network: Network; probe: Probe } {
  const index = network.elements.indexOf(element);
  if (element.kind !== 'resistance') return { network, probe: { kind: 'current', source: index } };
  const elements = network.elements.slice();
  if (element.ohms.high === 0) {
    elements[index] = meterSource(element.b, element.a);
    return { network: { ...network, elements }, probe: { kind: 'current', source: index } };
  }
  const inside = network.nodeCount;
  elements[index] = { ...element, a: inside };
  elements.push(meterSource(inside, element.a));
  return {
    network: { ...network, elements, nodeCount: inside + 1 },
    probe: { kind: 'current', source: elements.length - 1 },
  };
}

function meterResistance(a: NodeId, b: NodeId, ohms: number): Element {
  return { kind: 'resistance', id: METER, a, b, ohms: exact(ohms) };
}

function meterSource(plus: NodeId, minus: NodeId): Element {
  return { kind: 'voltage', id: METER, plus, minus, volts: exact(0) };
}
