import type { Ranged } from '../../base/ranged.ts';
import type { Segment } from '../network.ts';
import { bothWays, polylineSegments } from './polyline.ts';

/** The voltage across a driver that is off from which its whole leakage flows (common practice, no source). */
const wholeV = 1;

/** From there on it grows by this part of itself for each volt, for a current cannot be without any slope. */
const growthPerVolt = 1e-3;

/**
 * What flows through a driver that is off: a current that hardly depends on the voltage across it. `amps` is above zero at its high
 * end; a low end of nothing counts as a thousandth of the nominal current.
 */
export function leakageSegments(amps: Ranged): readonly Segment[] {
  const nominal = amps.nominal > 0 ? amps.nominal : amps.high;
  const points = [
    { volts: 0, amps: 0 },
    { volts: wholeV, amps: nominal },
    { volts: wholeV + 1, amps: nominal * (1 + growthPerVolt) },
  ];
  const scale = { low: Math.max(amps.low / nominal, 1e-3), nominal: 1, high: amps.high / nominal };
  return polylineSegments(bothWays(points), scale);
}
