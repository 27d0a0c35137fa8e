import type { Fault } from '../analysis/faults/fault.ts';

/** A fault with the variants in which the list says the same of it. */
export interface ListedFault {
  readonly fault: Fault;
  readonly variants: readonly string[];
}

/** The lists of several variants as one; what differs between them stands once for each way. */
export function listed(lists: ReadonlyMap<string, readonly Fault[]>): readonly ListedFault[] {
  const found = new Map<string, { fault: Fault; variants: string[] }>();
  for (const [variant, faults] of lists) {
    for (const fault of faults) {
      const { changes, place, ...said } = fault;
      const key = JSON.stringify(said);
      const known = found.get(key);
      if (known) known.variants.push(variant);
      else found.set(key, { fault, variants: [variant] });
    }
  }
  return [...found.values()];
}
