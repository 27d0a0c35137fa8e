import { exact, type Ranged } from '../../base/ranged.ts';
import type { Segment } from '../network.ts';

/** What a junction does while it conducts: the voltage from which it does, and what comes on top for each ampere. */
export interface Junction {
  readonly volts: Ranged;
  /** Above zero. */
  readonly ohms: Ranged;
}

/**
 * A silicon junction that nothing is said about: 0.5 V to 0.8 V while it conducts (Practical Electronics Handbook, 6th edition, ch. 5),
 * 0.7 V as textbooks count with. The ohms are those of a rectifier for a few amperes (common practice, no source).
 */
export const siliconJunction: Junction = { volts: { low: 0.5, nominal: 0.7, high: 0.8 }, ohms: exact(0.05) };

/**
 * A light-emitting diode that nothing is said about: 1.6 V to 2.2 V for the red to green ones (Practical Electronics Handbook, 6th
 * edition, ch. 5); blue and white ones take about 3 V, which has to be stated. 5 Ω are 0.1 V at 20 mA (common practice, no source).
 */
export const lightJunction: Junction = { volts: { low: 1.6, nominal: 2, high: 2.2 }, ohms: exact(5) };

/**
 * A Zener diode in breakdown, whose voltage is always stated: the ohms are between those of small ones, some 10 Ω, and of large
 * surge suppressors, under 1 Ω (common practice, no source).
 */
export const breakdownOhms: Ranged = exact(2);

/**
 * A diode from its anode `a` to its cathode `b`: open up to its forward voltage, then a source of it behind a small resistance. Its
 * leakage and the breakdown of a plain diode are not modelled.
 */
export function diodeSegments({ volts, ohms }: Junction): readonly Segment[] {
  return [
    { kind: 'open', toV: volts },
    { kind: 'line', volts, ohms, fromV: 0 },
  ];
}

/** A Zener diode: as a diode, and backwards the same from its zener voltage on. Both voltages are above zero. */
export function zenerSegments(forward: Junction, breakdown: Junction): readonly Segment[] {
  const volts = negative(breakdown.volts);
  return [
    { kind: 'line', volts, ohms: breakdown.ohms, toV: 0 },
    { kind: 'open', fromV: volts, toV: forward.volts },
    { kind: 'line', volts: forward.volts, ohms: forward.ohms, fromV: 0 },
  ];
}

function negative({ low, nominal, high }: Ranged): Ranged {
  return { low: -high, nominal: -nominal, high: -low };
}
