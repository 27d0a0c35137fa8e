import { faultsOf } from '../../analysis/faults/derive.ts';
import { kindNames } from '../../analysis/faults/names.ts';
import type { System } from '../../model/system.ts';

/** Every name by which a fault of the system may be called, over all its variants. */
export function faultNames(system: System): ReadonlySet<string> {
  const before = known.get(system);
  if (before) return before;
  const all = system.variants.flatMap(variant => faultsOf(system, variant));
  const fresh = new Set(all.flatMap(fault => [fault.id, ...kindNames(fault)]));
  known.set(system, fresh);
  return fresh;
}

const known = new WeakMap<System, ReadonlySet<string>>();
