import {
  breakdownOhms,
  diodeSegments,
  lightJunction,
  siliconJunction,
  zenerSegments,
} from '../../../circuit/curves/diode.ts';
import type { Bent, NodeId } from '../../../circuit/network.ts';
import type { Junction } from '../../../model/parts.ts';

/** A diode of any sort from its anode to its cathode; nothing for a zener diode without a voltage. */
export function junctionBend(id: string, data: Junction, anode: NodeId, cathode: NodeId): Bent | undefined {
  const usual = data.kind === 'led' ? lightJunction : siliconJunction;
  const forward = { volts: data.forwardV ?? usual.volts, ohms: usual.ohms };
  if (data.kind !== 'zener') {
    return { id, a: anode, b: cathode, segments: diodeSegments({ ...forward, ohms: data.slopeOhms ?? usual.ohms }) };
  }
  if (!data.zenerV) return undefined;
  const breakdown = { volts: data.zenerV, ohms: data.slopeOhms ?? breakdownOhms };
  return { id, a: anode, b: cathode, segments: zenerSegments(forward, breakdown) };
}

/** The diode across a relay's coil. */
export function suppressionDiode(id: string, anode: NodeId, cathode: NodeId): Bent {
  return { id: `${id} suppression diode`, a: anode, b: cathode, segments: diodeSegments(siliconJunction) };
}
