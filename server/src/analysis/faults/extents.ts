import type { WireSize } from '../../base/quantity/wire-size.ts';
import { gaugeAreaMm2 } from '../../circuit/conductor/gauge.ts';
import type { Extent } from './fault.ts';

const customary = 'common practice, no source';

/**
 * A bad joint in a conductor of this size. A thick conductor belongs to a large current, which a few milliohms already disturb; a
 * thin one to a small current, which they do not.
 */
export function badJoint(size: WireSize | undefined): Extent {
  const areaMm2 = size === undefined ? 1 : 'areaMm2' in size ? size.areaMm2 : gaugeAreaMm2(size.gauge);
  const ohms = areaMm2 > 10 ? 0.05 : areaMm2 > 2 ? 1 : 10;
  return { dimension: 'resistance', value: ohms, source: customary };
}

/** A bad joint where several conductors meet: the thickest one decides. */
export function badJointOf(sizes: readonly (WireSize | undefined)[]): Extent {
  return sizes.map(badJoint).reduce((least, one) => (one.value < least.value ? one : least), badJoint(undefined));
}

/** A chafed wire on bare metal. */
export const bareMetal: Extent = { dimension: 'resistance', value: 0.01, source: customary };

/** A part whose inside has become a conductor. */
export const throughPart: Extent = { dimension: 'resistance', value: 0.1, source: customary };

/** Half of the turns are bridged. */
export const halfTheTurns: Extent = { dimension: 'ratio', value: -0.5, source: customary };

/** A resistor or a sensor that has moved away from its value. */
export const drifted: Extent = { dimension: 'ratio', value: 0.3, source: customary };

/** What a lead-acid battery without charge still shows, against a full one: 11.89 V for 12.65 V. */
export const flat: Extent = {
  dimension: 'ratio',
  value: 11.89 / 12.65 - 1,
  source: 'discoverbattery.com, tables 6 to 8 (BCI): 11.89 V empty, 12.65 V full at rest',
};

/** One cell of a lead-acid battery adds nothing. */
export function cellLost(cells: number): Extent {
  return { dimension: 'ratio', value: -1 / cells, source: 'lead-acid cells have about 2.1 V each (from memory)' };
}

/** A worn battery holds its voltage only while little is asked of it. */
export const worn: Extent = { dimension: 'resistance', value: 0.1, source: customary };

/** A regulated supply that sags. */
export const sagging: Extent = { dimension: 'ratio', value: -0.2, source: customary };
