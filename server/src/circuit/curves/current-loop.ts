import type { Ranged } from '../../base/ranged.ts';
import type { Bent, NodeId } from '../network.ts';
import { polylineSegments } from './polyline.ts';

/** The current of a loop grows by this part of itself for each volt more, for a current cannot be without any slope. */
const growthPerVolt = 1e-6;
/** Less than any meter shows; stands for no current where a current with a tolerance could be none. */
const leastA = 1e-9;

/**
 * A transmitter that sets the current in its loop, from its positive terminal `a` to its negative one `b`: as much as it asks for from
 * `leastV` on, less below it, and nothing backwards. `leastV` is above zero. Nothing where it asks for no current at all.
 */
export function currentLoop(id: string, a: NodeId, b: NodeId, asked: Ranged, leastV: number): Bent | undefined {
  if (!(asked.high > 0)) return undefined;
  const amps = {
    low: Math.max(leastA, asked.low),
    nominal: Math.max(leastA, asked.nominal),
    high: Math.max(leastA, asked.high),
  };
  const scale = { low: amps.low / amps.nominal, nominal: 1, high: amps.high / amps.nominal };
  const segments = polylineSegments(
    [
      { volts: -1, amps: 0 },
      { volts: 0, amps: 0 },
      { volts: leastV, amps: amps.nominal },
      { volts: leastV + 1, amps: amps.nominal * (1 + growthPerVolt) },
    ],
    scale,
  );
  return { id, a, b, segments, amps: amps.nominal };
}
