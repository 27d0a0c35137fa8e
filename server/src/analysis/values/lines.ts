import { UnionFind } from '../../graph/union-find.ts';
import { partIn } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import { frame, type Wiring } from '../lower/wiring.ts';

/** The points that wires, splices and mated plugs make one: what a wiring diagram draws as one line. */
export interface Line {
  /** The pin of a module first, as that is where people measure; then the cavities of plugs, and the rest. */
  readonly points: readonly string[];
}

/** The lines of a variant in the order of the file. A terminal without a wire is on none. */
export function linesOf(wiring: Wiring): Line[] {
  const tied = new UnionFind(wiring.nodeCount);
  const wired = new Set<number>();
  for (const { nodes } of wiring.wires) {
    for (const node of nodes) {
      tied.union(nodes[0]!, node);
      wired.add(node);
    }
  }
  // Every ground is the frame, whatever its contact adds.
  for (const node of wiring.grounds.values()) if (wired.has(node)) tied.union(frame, node);
  const lines = new Map<number, string[]>();
  for (const [point, node] of nodesOf(wiring)) {
    if (!wired.has(node)) continue;
    const line = tied.find(node);
    const points = lines.get(line) ?? [];
    lines.set(line, points);
    points.push(point);
  }
  const rank = (point: string) => rankOf(point, wiring);
  return [...lines.values()].map(points => ({ points: points.sort((a, b) => rank(a) - rank(b)) }));
}

function nodesOf({ terminals, cavities, grounds, splices }: Wiring): (readonly [string, number])[] {
  return [
    ...[...terminals].map(([point, { harness }]) => [point, harness] as const),
    ...[...cavities].flatMap(([point, passages]) =>
      passages.slice(0, 1).map(passage => [point, passage.sides[0].node] as const),
    ),
    ...grounds,
    ...splices,
  ];
}

function rankOf(point: string, { terminals, cavities, grounds, parts }: Wiring): number {
  if (grounds.has(point)) return 0;
  if (cavities.has(point)) return 2;
  const owner = terminals.get(point)?.part;
  if (owner === undefined) return 4;
  return parts.find(({ part }) => part.id === owner)?.data.kind === 'module' ? 1 : 3;
}

/** What the author calls a point: the name of the pin, else the title of the part, plug, ground or splice. */
export function titleOf(point: string, { system, variant }: { system: System; variant: string }): string {
  const dot = point.lastIndexOf('.');
  const part = system.parts.get(dot < 0 ? point : point.slice(0, dot));
  if (part) {
    const data = partIn(part, variant);
    const pin = data.kind === 'module' ? data.pins.get(point.slice(dot + 1)) : undefined;
    return pin?.name ?? part.title ?? part.id;
  }
  const slash = point.lastIndexOf('/');
  const other =
    system.connectors.get(slash < 0 ? '' : point.slice(0, slash)) ??
    system.grounds.get(point) ??
    system.splices.get(point);
  return other?.title ?? point;
}

/** The first ground that a wire goes to, else the negative terminal of the first supply that has one. */
export function blackLead({ grounds, parts }: Wiring, lines: readonly Line[]): string | undefined {
  const wired = new Set(lines.flatMap(({ points }) => points));
  const supplies = parts.filter(({ data }) => data.kind === 'battery' || data.kind === 'supply');
  const negatives = supplies.map(({ part, data }) => `${part.id}.${data.terminals[1]?.text}`);
  return [...grounds.keys(), ...negatives].find(point => wired.has(point));
}

/** A pin that the inside of a module switches. */
export function isSwitched(point: string, { terminals, parts }: Wiring): boolean {
  const owner = terminals.get(point)?.part ?? '';
  const data = parts.find(({ part }) => part.id === owner)?.data;
  const output = data?.kind === 'module' ? data.pins.get(point.slice(owner.length + 1))?.output : undefined;
  return output === 'low side' || output === 'high side';
}
