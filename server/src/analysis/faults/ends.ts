import type { WiredLine, Wiring } from '../lower/wiring.ts';

/** The wires that end at a point, by its name: a terminal, a ground, a splice. */
export function linesAt(wiring: Wiring, point: string): readonly WiredLine[] {
  return (known.get(wiring) ?? index(wiring)).get(point) ?? [];
}

const known = new WeakMap<Wiring, ReadonlyMap<string, readonly WiredLine[]>>();

function index(wiring: Wiring): ReadonlyMap<string, readonly WiredLine[]> {
  const found = new Map<string, WiredLine[]>();
  for (const line of wiring.wires) {
    for (const point of new Set([line.wire.from?.text, line.wire.to?.text])) {
      if (point === undefined) continue;
      const here = found.get(point);
      if (here) here.push(line);
      else found.set(point, [line]);
    }
  }
  known.set(wiring, found);
  return found;
}
