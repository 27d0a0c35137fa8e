import type { Ranged } from '../../base/ranged.ts';
import type { Box } from '../box.ts';
import type { Bent, Network, NodeId } from '../network.ts';
import { quickLook } from '../quick-look.ts';
import { type NumberReading, read } from '../reading.ts';
import { dropIn, type Holding, leakOf, neighbours, segmentOf } from './straighten.ts';

/** Which segments a bent part may be in over all tolerances, as far as can be told from the piece that it is in now. */
export interface Reach {
  /** Places in `segments`; the one that holds at nominal values first. */
  readonly segments: readonly number[];
  /** The reading that decides it, for what has a say in it; absent where much less than that leaves nothing open. */
  readonly reading?: NumberReading;
}

/** `linear` is the network in which the part stands for the piece in `holding`, leaks and all, with its values in the box. */
export function reachOf(bent: Bent, linear: Network, holding: Holding, box: Box): Reach {
  const at = Math.min(holding.get(bent.id) ?? 0, bent.segments.length - 1);
  const segment = segmentOf(bent, holding);
  const [red, black] = ends(bent, linear, segment.kind === 'open' ? leakOf(bent.id) : bent.id);
  const [below, above] = neighbours(bent, holding).map(next => next && dropIn(bent, next, box));
  const [from, to] =
    segment.kind === 'open'
      ? [below ?? segment.fromV, above ?? segment.toV]
      : [pointAt(segment.fromV), pointAt(segment.toV)];
  const surely = quickLook(linear)?.range(red, black);
  if (surely && !(to && surely.high > to.low) && !(from && surely.low < from.high)) return { segments: [at] };
  const reading = read(linear, { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY });
  if (reading.state !== 'number') return { segments: [at] };
  const slack = 1e-9 * Math.max(1e-3, Math.abs(reading.low), Math.abs(reading.high));
  const segments = [at];
  if (to && reading.high > to.low + slack) segments.push(at + 1);
  if (from && reading.low < from.high - slack) segments.push(at - 1);
  return { segments, reading };
}

/** Where the element that stands for the piece is; of a line only its resistance, without the source in it. */
function ends(bent: Bent, linear: Network, id: string): readonly [red: NodeId, black: NodeId] {
  const element = linear.elements.find(one => one.id === id);
  return element?.kind === 'resistance' ? [element.a, element.b] : [bent.a, bent.b];
}

function pointAt(volts: number | undefined): Ranged | undefined {
  return volts === undefined ? undefined : { low: volts, nominal: volts, high: volts };
}
