import { isExact, type Ranged } from '../base/ranged.ts';
import type { Corner } from './bounds.ts';
import type { Core, Part } from './core.ts';
import type { Element } from './network.ts';

/** One element at one end of its range; ohms, volts or amperes by its kind. */
export interface PartValue {
  id: string;
  kind: Element['kind'];
  value: number;
  end: 'low' | 'nominal' | 'high';
}

interface Weighed extends PartValue {
  /** About how far the reading moves when this element goes from one end to the other. */
  influence: number;
}

/** Elements that move the reading by less than this part of what the strongest one does are not named. */
const NOTICEABLE = 1e-9;

/** Names the elements with width behind a corner, the most influential first. */
export function nameCorner(core: Core, corner: Corner): PartValue[] {
  const { drive, adjoint, conductance, transfer } = corner.point;
  const named: Weighed[] = [];
  core.branches.forEach(({ part }, j) => {
    const perOhm = Math.abs(drive[j]! * adjoint[j]!) * conductance[j]! ** 2;
    nameMembers(part, corner.ohms[j] === part.ohms.low ? 'low' : 'high', perOhm, named);
  });
  core.sources.forEach(({ id, kind, range }, k) => {
    if (isExact(range)) return;
    const value = corner.sources[k]!;
    const influence = Math.abs(transfer[k]!) * (range.high - range.low);
    named.push({ id, kind, value, end: value === range.low ? 'low' : 'high', influence });
  });
  return ranked(named);
}

/** Names the members of branches that are all at the same end; `perOhm` says how the reading moves with each branch. */
export function nameBranches(core: Core, end: 'low' | 'high', perOhm: ArrayLike<number>): PartValue[] {
  const named: Weighed[] = [];
  core.branches.forEach(({ part }, j) => {
    nameMembers(part, end, perOhm[j]!, named);
  });
  return ranked(named);
}

function nameMembers(part: Part, end: 'low' | 'high', perOhm: number, named: Weighed[]): void {
  if (isExact(part.ohms)) return;
  if (part.kind === 'element') {
    const influence = perOhm * (part.ohms.high - part.ohms.low);
    named.push({ id: part.id, kind: 'resistance', value: part.ohms[end], end, influence });
    return;
  }
  for (const member of part.parts) {
    const share = part.kind === 'series' ? 1 : shareInParallel(part.ohms, member.ohms, end);
    nameMembers(member, end, perOhm * share, named);
  }
}

/** How the resistance of a parallel group moves with that of a member: (R / R_member)^2. */
function shareInParallel(group: Ranged, member: Ranged, end: 'low' | 'high'): number {
  return member[end] === 0 ? 1 : (group[end] / member[end]) ** 2;
}

function ranked(named: Weighed[]): PartValue[] {
  const most = Math.max(0, ...named.map(part => part.influence));
  return named
    .filter(part => part.influence > NOTICEABLE * most)
    .sort((a, b) => b.influence - a.influence || (a.id < b.id ? -1 : 1))
    .map(({ id, kind, value, end }) => ({ id, kind, value, end }));
}
