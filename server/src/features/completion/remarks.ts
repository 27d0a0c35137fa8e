import type { System } from '../../model/system.ts';
import type { Candidate } from './candidate.ts';
import type { Scene } from './scene.ts';
import type { Spot } from './spot.ts';

/** Behind a point and a blank: on which side of a parted plug, or from behind a mated one. Nothing while the point is written. */
export function remarksAt({ typed, replace }: Spot, { systems }: Scene): Candidate[] | undefined {
  const written = /^(\S.*?\S|\S)( *\(?[^()]*)$/.exec(typed);
  const owner = systems.map(system => ownerIn(system, typed)).find(found => found !== undefined);
  if (!written || owner === undefined) return undefined;
  const start = replace.start + owner.point.length;
  return owner.remarks.map(remark => ({
    label: `(${remark})`,
    kind: 'value',
    detail: remark === 'back-probe' ? 'from behind a mated plug' : 'of the parted plug',
    insert: ` (${remark})`,
    isSnippet: false,
    replace: { start, end: replace.end },
  }));
}

function ownerIn(system: System, typed: string): { point: string; remarks: string[] } | undefined {
  const point = /^(.*\S) +(?:\(.*)?$/.exec(typed)?.[1];
  if (point === undefined) return undefined;
  for (const part of system.parts.values())
    if (point.startsWith(`${part.id}.`)) return { point, remarks: ['back-probe', 'part side', 'harness side'] };
  for (const connector of system.connectors.values())
    if (point.startsWith(`${connector.id}/`)) return { point, remarks: ['back-probe', ...sidesOf(system, point)] };
  return undefined;
}

/** The halves of a cavity are named by what their wires lead to. */
function sidesOf(system: System, cavity: string): string[] {
  const ends = system.wires
    .filter(
      wire =>
        wire.through.some(({ text }) => text === cavity) || wire.from?.text === cavity || wire.to?.text === cavity,
    )
    .flatMap(({ from, to }) => [from, to])
    .flatMap(ref => (ref && ref.text !== cavity ? [ref.text] : []));
  return [...new Set(ends.map(text => `${text.replace(/[./][^./]*$/, '')} side`))];
}
