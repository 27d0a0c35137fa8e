import type { Situation } from '../../analysis/situation.ts';
import type { Case } from '../../analysis/view.ts';
import { existsIn } from '../../model/common.ts';
import { ownerOfPoint } from './hazards.ts';

/**
 * Points that wires, mated plugs and splices join to the terminals of a part. Of a plug that is apart only one half is joined: its
 * value holds the names by which a lead may call that half.
 */
export function wiredTo(part: string, { system, variant }: Case, now: Situation): ReadonlyMap<string, Halves> {
  const found = new Map<string, Halves>();
  if (now.apart.has(part)) return found;
  const wires = system.wires.filter(w => existsIn(w, variant) && w.from && w.to);
  const points = wires.map(w => [w.from!.text, ...w.through.map(t => t.text), w.to!.text]);
  const queue = points.flatMap(p => [p[0]!, p.at(-1)!].filter(end => ownerOfPoint(end) === part));
  const done = new Set<string>();
  for (let from = queue.pop(); from !== undefined; from = queue.pop()) {
    if (done.has(from)) continue;
    done.add(from);
    found.set(from, 'whole');
    for (const written of points) {
      for (const chain of [written, [...written].reverse()]) {
        if (chain[0] !== from) continue;
        // The frame is joined to everything, and no way from it leads through this part alone.
        const last = along(system.grounds.has(chain.at(-1)!) ? chain.slice(0, -1) : chain, now, found);
        if (last !== undefined && system.splices.has(last)) queue.push(last);
      }
    }
  }
  return found;
}

export type Halves = 'whole' | ReadonlySet<string>;

/** Marks the points of a wire up to a plug that is apart; gives the far end if it is reached. */
function along(chain: readonly string[], now: Situation, found: Map<string, Halves>): string | undefined {
  const passed: string[] = [];
  for (const [i, point] of chain.entries()) {
    const owner = ownerOfPoint(point);
    if (point.includes('/') && now.apart.has(owner)) {
      found.set(point, new Set(passed));
      return undefined;
    }
    // At a part's own plug that is off, the harness side is joined.
    if (i > 0 && !found.has(point)) found.set(point, now.apart.has(owner) ? new Set(['harness']) : 'whole');
    passed.push(point, owner);
  }
  return chain.at(-1);
}
