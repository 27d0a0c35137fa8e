import type { Ranged } from '../../../base/ranged.ts';
import { coldOhms, lampCurve, type SplitCurve } from '../../../circuit/curves/lamp.ts';
import { motorCurve } from '../../../circuit/curves/motor.ts';
import { polylineSegments } from '../../../circuit/curves/polyline.ts';
import type { NodeId } from '../../../circuit/network.ts';
import type { Lamp, Table } from '../../../model/parts.ts';
import { noElements, type PartElements } from '../surroundings.ts';

type Ends = readonly [a: NodeId, b: NodeId];

/** A lamp from cold to hot; nothing where its rating is missing or its cold resistance is not below its hot one. */
export function lampElements(id: string, { ratedV, powerW, coldOhms: stated }: Lamp, ends: Ends, fresh: () => NodeId) {
  if (ratedV === undefined || !powerW || !(ratedV > 0) || !(powerW.low > 0)) return undefined;
  const cold = stated ?? coldOhms(ratedV, powerW);
  if (!(cold.low > 0) || cold.nominal >= ratedV ** 2 / powerW.nominal) return undefined;
  return split(id, 'cold resistance', lampCurve(ratedV, powerW, cold), ends, fresh);
}

/** A motor that turns; at standstill it is its winding alone. */
export function runningMotor(
  id: string,
  { ratedV, amps }: { readonly ratedV: number; readonly amps: Ranged },
  windingOhms: Ranged,
  ends: Ends,
  fresh: () => NodeId,
): PartElements | undefined {
  const isMotor = ratedV > 0 && amps.low > 0 && windingOhms.low > 0 && amps.nominal * windingOhms.nominal < ratedV;
  return isMotor ? split(id, 'winding', motorCurve(ratedV, amps, windingOhms), ends, fresh) : undefined;
}

/** A part as a table of voltage and current; all currents share one tolerance, the widest that a point states. */
export function tableElements(id: string, { points }: Table, [a, b]: Ends): PartElements | undefined {
  if (points.length < 2) return undefined;
  const shares = points.filter(({ amps }) => amps.nominal !== 0);
  const low = Math.min(1, ...shares.map(({ amps }) => Math.min(amps.low / amps.nominal, amps.high / amps.nominal)));
  const high = Math.max(1, ...shares.map(({ amps }) => Math.max(amps.low / amps.nominal, amps.high / amps.nominal)));
  if (!(low > 0)) return undefined;
  const curve = points.map(({ volts, amps }) => ({ volts, amps: amps.nominal }));
  return { ...noElements(), bends: [{ id, a, b, segments: polylineSegments(curve, { low, nominal: 1, high }) }] };
}

/** The cold part or the winding as a resistance, and in series what comes on top, as ohms of the piece that holds: its slope. */
function split(
  id: string,
  resistance: string,
  { seriesOhms, segments }: SplitCurve,
  [a, b]: Ends,
  fresh: () => NodeId,
): PartElements {
  const inside = fresh();
  return {
    ...noElements(),
    elements: [{ kind: 'resistance', id: `${id} ${resistance}`, a, b: inside, ohms: seriesOhms }],
    bends: [{ id: `${id} slope resistance`, a: inside, b, segments }],
  };
}
