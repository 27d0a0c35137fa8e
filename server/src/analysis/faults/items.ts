import type { Derived } from './fault.ts';
import type { PartOf } from './part.ts';
import { customary } from './weights.ts';

/** What is not electrical fails as declared. */
export function itemFaults(part: PartOf<'item'>): Derived[] {
  return [...part.data.fails.values()].map(({ id, title, place }) => ({
    ...part.fault(id, title ? `${id}: ${title}` : id, customary(1), () => []),
    place,
  }));
}
