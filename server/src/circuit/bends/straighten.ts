import { exact, type Ranged } from '../../base/ranged.ts';
import { type Box, inBox, narrowed, wholeBox } from '../box.ts';
import type { Bent, Element, LineSegment, Network, Segment } from '../network.ts';

/** Which segment of each bent part holds, by its id: the place in `segments`. */
export type Holding = ReadonlyMap<string, number>;

/** What an open piece lets through while it is decided which piece holds, so that every node has a voltage. Siemens. */
const leakS = 1e-12;

/**
 * The linear network in which every bent part stands for one of its pieces, its values in the box. With `leaks`, open pieces are resistances that carry next to
 * nothing: for deciding which pieces hold, never for a reading, where an open diode is no path.
 */
export function straighten(network: Network, holding: Holding, box: Box = wholeBox, leaks = false): Network {
  const { bends = [] } = network;
  if (bends.length === 0) return box.size === 0 ? network : { ...network, elements: inBox(network.elements, box) };
  const elements: Element[] = [...network.elements];
  let { nodeCount } = network;
  for (const bent of bends) {
    const segment = segmentOf(bent, holding);
    if (segment.kind === 'open') {
      if (leaks)
        elements.push({ kind: 'resistance', id: leakOf(bent.id), a: bent.a, b: bent.b, ohms: exact(1 / leakS) });
      continue;
    }
    const { volts, ohms } = segment;
    const isSourceless = volts.low === 0 && volts.high === 0;
    const inside = isSourceless ? bent.b : nodeCount++;
    elements.push({ kind: 'resistance', id: bent.id, a: bent.a, b: inside, ohms });
    if (!isSourceless) elements.push({ kind: 'voltage', id: dropOf(bent.id), plus: inside, minus: bent.b, volts });
  }
  return { ...network, nodeCount, elements: inBox(elements, box), bends: [] };
}

/**
 * The linear network in which every bent part stands for its flattest piece, leaks and all: whatever pieces hold, a current that is put
 * in moves no voltage further than it does there.
 */
export function flattest(network: Network): Network {
  const before = known.get(network);
  if (before) return before;
  const holding = (network.bends ?? []).map(({ id, segments }): [string, number] => {
    const ohms = segments.map(mostOhms);
    return [id, ohms.indexOf(Math.max(...ohms))];
  });
  const fresh = straighten(network, new Map(holding), wholeBox, true);
  known.set(network, fresh);
  return fresh;
}

const known = new WeakMap<Network, Network>();

/** How many times the ohms of what holds go into those of the flattest piece, at most. */
export function flatterBy({ bends = [] }: Network, holding: Holding): number {
  return bends.reduce((most, bent) => {
    const held = segmentOf(bent, holding);
    const least = held.kind === 'open' ? mostOhms(held) : held.ohms.low;
    return Math.max(most, ...bent.segments.map(one => mostOhms(one) / least));
  }, 1);
}

function mostOhms(segment: Segment): number {
  return segment.kind === 'open' ? 1 / leakS : segment.ohms.high;
}

export function segmentOf(bent: Bent, holding: Holding): Segment {
  const at = holding.get(bent.id) ?? startOf(bent);
  return bent.segments[Math.min(at, bent.segments.length - 1)]!;
}

/** The pieces below and above the one that holds, where they conduct. */
export function neighbours(bent: Bent, holding: Holding): readonly (LineSegment | undefined)[] {
  const at = bent.segments.indexOf(segmentOf(bent, holding));
  return [bent.segments[at - 1], bent.segments[at + 1]].map(next => (next?.kind === 'line' ? next : undefined));
}

/** The piece around no voltage at all. */
export function startOf({ segments }: Bent): number {
  const at = segments.findIndex(one => highestV(one) > 0);
  return at < 0 ? segments.length - 1 : at;
}

/** The voltage across the part, at nominal values, above which a segment gives way to the next. */
export function highestV(segment: Segment): number {
  if (segment.kind === 'open') return segment.toV?.nominal ?? Number.POSITIVE_INFINITY;
  return segment.toV === undefined ? Number.POSITIVE_INFINITY : segment.volts.nominal + segment.toV;
}

/** The voltage at which a piece begins, its source, cut down to the box. */
export function dropIn(bent: Bent, { volts }: LineSegment, box: Box): Ranged {
  const place = box.get(dropOf(bent.id));
  return place ? narrowed(volts, place) : volts;
}

/** The element that stands for the source in a piece of a bent part. */
export function dropOf(id: string): string {
  return `${id} drop`;
}

export function leakOf(id: string): string {
  return `${id} leak`;
}
