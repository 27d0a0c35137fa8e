import { faultsOf } from '../analysis/faults/derive.ts';
import type { Fault } from '../analysis/faults/fault.ts';
import { faultsNamed, kindNames } from '../analysis/faults/names.ts';
import type { System } from '../model/system.ts';
import { unknown, WrongUse } from './wrong-use.ts';

/**
 * The fault of this name in each of the variants that have it. Throws `WrongUse` for a name that none has, and for one that means
 * several faults; `where` names the system.
 */
export function faultIn(
  name: string,
  system: System,
  variants: readonly string[],
  where: string,
): ReadonlyMap<string, Fault> {
  const lists = variants.map(variant => [variant, faultsOf(system, variant)] as const);
  const found = lists.flatMap(([variant, all]) => {
    const meant = faultsNamed(all, name);
    if (meant.length > 1) throw several(name, meant);
    return meant.map(fault => [variant, fault] as const);
  });
  if (found.length > 0) return new Map(found);
  const names = lists.flatMap(([, all]) => all.flatMap(fault => [fault.id, ...kindNames(fault)]));
  throw unknown('fault', name, new Set(names), where);
}

function several(name: string, faults: readonly Fault[]): WrongUse {
  const some = faults.slice(0, mostNamed).map(fault => `\`${fault.id}\``);
  const more = faults.length > some.length ? ' or another one' : '';
  return new WrongUse(
    `\`${name}\` may be any of ${faults.length} faults`,
    `name one of them: ${some.join(', ')}${more}; \`faultwalk faults\` lists all`,
  );
}

const mostNamed = 8;
