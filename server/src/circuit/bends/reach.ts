import type { Ranged } from '../../base/ranged.ts';
import type { Box } from '../box.ts';
import type { Bent, Network } from '../network.ts';
import { type NumberReading, type Reading, read } from '../reading.ts';
import { dropIn, type Holding, leakOf, neighbours, segmentOf } from './straighten.ts';

/** Which segments a bent part may be in over all tolerances, as far as can be told from the piece that it is in now. */
export interface Reach {
  /** Places in `segments`; the one that holds at nominal values first. */
  readonly segments: readonly number[];
  /** The reading that decides it, for what has a say in it. */
  readonly reading?: NumberReading;
}

/** `linear` is the network in which the part stands for the piece in `holding`, leaks and all, with its values in the box. */
export function reachOf(bent: Bent, linear: Network, holding: Holding, box: Box): Reach {
  const at = Math.min(holding.get(bent.id) ?? 0, bent.segments.length - 1);
  const segment = segmentOf(bent, holding);
  const reading = across(bent, linear, segment.kind === 'open' ? leakOf(bent.id) : bent.id);
  if (reading.state !== 'number') return { segments: [at] };
  const [below, above] = neighbours(bent, holding).map(next => next && dropIn(bent, next, box));
  const [from, to] =
    segment.kind === 'open'
      ? [below ?? segment.fromV, above ?? segment.toV]
      : [pointAt(segment.fromV), pointAt(segment.toV)];
  const slack = 1e-9 * Math.max(1e-3, Math.abs(reading.low), Math.abs(reading.high));
  const segments = [at];
  if (to && reading.high > to.low + slack) segments.push(at + 1);
  if (from && reading.low < from.high - slack) segments.push(at - 1);
  return { segments, reading };
}

/** The voltage over the element that stands for the piece; for a line only its resistance, without the source in it. */
function across(bent: Bent, linear: Network, id: string): Reading {
  const element = linear.elements.find(one => one.id === id);
  const [red, black] = element?.kind === 'resistance' ? [element.a, element.b] : [bent.a, bent.b];
  return read(linear, { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY });
}

function pointAt(volts: number | undefined): Ranged | undefined {
  return volts === undefined ? undefined : { low: volts, nominal: volts, high: volts };
}
