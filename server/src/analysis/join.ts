import type { Finding } from '../base/finding.ts';
import type { Ref } from '../model/common.ts';
import { STANDARD } from '../model/common.ts';
import type { System } from '../model/system.ts';

/** A file that `includes` names, as far as it could be had. */
export interface Included {
  readonly ref: Ref;
  readonly system: System | undefined;
}

/**
 * A system with the files that it includes read as if they stood in it. What the file itself declares goes before what it includes;
 * a name that stands in two of them is told at the `includes` line.
 */
export function joinSystems(own: System, included: readonly Included[]): System {
  let joined = own;
  const problems: Finding[] = [];
  for (const { ref, system } of included) {
    if (!system) continue;
    problems.push(...twice(joined, system, ref));
    const allowed = system.variants.length === 1 && system.variants[0] === STANDARD ? [] : system.variants;
    const variants = [...new Set([...joined.variants, ...allowed])].filter(
      (v, _, all) => v !== STANDARD || all.length === 1,
    );
    joined = {
      ...joined,
      variants,
      variantDecls: merged(joined.variantDecls, system.variantDecls),
      conditions: merged(joined.conditions, system.conditions),
      parts: merged(joined.parts, system.parts),
      connectors: merged(joined.connectors, system.connectors),
      grounds: merged(joined.grounds, system.grounds),
      splices: merged(joined.splices, system.splices),
      wires: [...joined.wires, ...system.wires],
      specifications: merged(joined.specifications, system.specifications),
      faultNotes: [...joined.faultNotes, ...system.faultNotes],
    };
  }
  return problems.length === 0 ? joined : { ...joined, problems: [...joined.problems, ...problems] };
}

function merged<T>(own: ReadonlyMap<string, T>, more: ReadonlyMap<string, T>): ReadonlyMap<string, T> {
  return more.size === 0 ? own : new Map([...more, ...own]);
}

function twice(own: System, more: System, ref: Ref): readonly Finding[] {
  const kinds = ['conditions', 'parts', 'connectors', 'grounds', 'splices', 'specifications'] as const;
  for (const kind of kinds) {
    for (const [name, thing] of more[kind]) {
      const here = own[kind].get(name);
      if (!here || here.place.uri === thing.place.uri) continue;
      return [
        {
          rule: 'duplicate-name',
          place: ref.place,
          message: `The included file declares \`${name}\` again`,
          detail: `\`${name}\` stands among the ${kind} of both files; this file's own is used.`,
          help: `Rename one of the two.`,
          related: [
            { place: here.place, message: 'here' },
            { place: thing.place, message: 'and here' },
          ],
        },
      ];
    }
  }
  return [];
}
