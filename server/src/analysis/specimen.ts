import { exact, type Ranged } from '../base/ranged.ts';
import { dropOf } from '../circuit/bends/straighten.ts';
import { toleranceOf } from '../circuit/box.ts';
import { type Bent, type Element, rangeOf, type Segment, withRange } from '../circuit/network.ts';
import type { PartValue } from '../circuit/reading.ts';
import type { Effect } from './effect.ts';

/**
 * One machine out of all those inside the tolerances: how far each named value is from its nominal one, -1 at its low end and 1 at its
 * high end. All others are nominal. The place and not the value is kept, for what conditions change has another range in each of them.
 */
export interface Specimen {
  readonly key: string;
  readonly places: ReadonlyMap<string, number>;
  /** The values behind it, for people. */
  readonly values: readonly PartValue[];
}

export const nominalSpecimen: Specimen = { key: 'nominal', places: new Map(), values: [] };

/** The machine that the ends of a reading name; so far from the nominal one, 1 being the whole way. */
export function specimenAt(values: readonly PartValue[], part = 1): Specimen {
  const ends = values.filter(({ end }) => end !== 'nominal');
  if (ends.length === 0) return nominalSpecimen;
  const places = new Map(ends.map(({ id, end }) => [id, end === 'low' ? -part : part] as const));
  const key = [...places].map(([id, place]) => `${id}@${place}`).join(',');
  return { key, places, values: part === 1 ? ends : [] };
}

/** Pins every value of a machine, so that all its readings are exact. It belongs behind the effect of a fault. */
export function specimenEffect({ key, places }: Specimen): Effect {
  return {
    key: `specimen ${key}`,
    fixed: new Map(),
    change: lowered => {
      const { network } = lowered;
      const byTolerance = new Map<string, number>();
      for (const element of network.elements) {
        const place = places.get(element.id);
        if (place !== undefined) byTolerance.set(toleranceOf(element), place);
      }
      const placeOf = (element: Element) => byTolerance.get(toleranceOf(element)) ?? 0;
      return {
        ...lowered,
        network: {
          ...network,
          elements: network.elements.map(e =>
            isExactly(rangeOf(e)) ? e : withRange(e, pinned(rangeOf(e), placeOf(e))),
          ),
          bends: network.bends?.map(bent => pinnedBend(bent, places)),
        },
      };
    },
  };
}

function isExactly({ low, high }: Ranged): boolean {
  return low === high;
}

function pinned({ low, nominal, high }: Ranged, place: number): Ranged {
  return exact(place < 0 ? nominal + place * (nominal - low) : nominal + place * (high - nominal));
}

function pinnedBend(bent: Bent, places: Specimen['places']): Bent {
  const [slope, drop] = [places.get(bent.id) ?? 0, places.get(dropOf(bent.id)) ?? 0];
  const inSegment = (segment: Segment): Segment =>
    segment.kind === 'open'
      ? {
          ...segment,
          ...(segment.fromV && { fromV: pinned(segment.fromV, drop) }),
          ...(segment.toV && { toV: pinned(segment.toV, drop) }),
        }
      : { ...segment, volts: pinned(segment.volts, drop), ohms: pinned(segment.ohms, slope) };
  return { ...bent, segments: bent.segments.map(inSegment) };
}
