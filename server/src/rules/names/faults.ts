import { faultsOf } from '../../analysis/faults/derive.ts';
import { kindNames } from '../../analysis/faults/names.ts';
import type { System } from '../../model/system.ts';

/** Whether any variant has a fault of this name; most names are found in the first. */
export function isFault(system: System, name: string): boolean {
  return system.variants.some(variant => namesIn(system, variant).has(name));
}

/** Every name by which a fault of the system may be called. */
export function faultNames(system: System): ReadonlySet<string> {
  return new Set(system.variants.flatMap(variant => [...namesIn(system, variant)]));
}

function namesIn(system: System, variant: string): ReadonlySet<string> {
  const mine = known.get(system) ?? new Map<string, ReadonlySet<string>>();
  known.set(system, mine);
  const names =
    mine.get(variant) ?? new Set(faultsOf(system, variant).flatMap(fault => [fault.id, ...kindNames(fault)]));
  mine.set(variant, names);
  return names;
}

const known = new WeakMap<System, Map<string, ReadonlySet<string>>>();
