import type { Segment } from '../network.ts';
import { polylineSegments } from './polyline.ts';

/** The current of a loop grows by this part of itself for each volt more, for a current cannot be without any slope. */
const growthPerVolt = 1e-6;

/**
 * A transmitter that sets the current in its loop, from its positive to its negative terminal: as much as it asks for from `leastV` on,
 * less below it, and nothing backwards. Both above zero.
 */
export function loopSegments(amps: number, leastV: number): readonly Segment[] {
  return polylineSegments([
    { volts: -1, amps: 0 },
    { volts: 0, amps: 0 },
    { volts: leastV, amps },
    { volts: leastV + 1, amps: amps * (1 + growthPerVolt) },
  ]);
}
