import { UnionFind } from '../graph/union-find.ts';
import { existsIn } from '../model/common.ts';
import type { PartData, PartKind } from '../model/parts.ts';
import type { Wiring } from './lower/wiring.ts';

/**
 * What may be on for no other reason than that it was on before: an output whose rule has an `until`, a relay that feeds its own coil, and
 * one whose coil may see a voltage between drop-out and pull-in because a supply has it. (A divider in front of a coil could do so too;
 * that is not looked for.) Mostly nothing, and then no situation depends on the one before.
 */
export function stayingNames(wiring: Wiring): ReadonlySet<string> {
  const found = new Set<string>();
  for (const { part, data } of wiring.parts) {
    if (data.kind === 'relay') {
      const [drop, pull] = [data.dropOutV ?? data.pullInV ?? 0, data.pullInV ?? 0];
      if (drop < pull && (isBetween(wiring, drop, pull) || feedsItself(wiring, part.id, data))) found.add(part.id);
    }
    if (data.kind !== 'module') continue;
    for (const rule of data.rules) {
      if (!rule.until || !existsIn(rule, wiring.variant)) continue;
      for (const { pin, on } of rule.outputs) if (on) found.add(`${part.id}.${pin.text}`);
    }
  }
  return found;
}

function isBetween({ parts }: Wiring, drop: number, pull: number): boolean {
  return parts.some(({ data }) => {
    if (data.kind !== 'battery' && data.kind !== 'supply') return false;
    return (data.volts?.cases ?? []).some(({ is }) => is.high > drop && is.low < pull && is.high > 0);
  });
}

/** Whether what the contact switches leads to the coil, through wires and parts that pass a current on. */
function feedsItself(wiring: Wiring, relay: string, { terminals }: PartData): boolean {
  const nodes = passingNodes(wiring);
  const [coilA, coilB, , open, closed] = terminals.map(t => wiring.terminals.get(`${relay}.${t.text}`)?.own);
  return [open, closed].some(
    contact =>
      contact !== undefined &&
      [coilA, coilB].some(coil => coil !== undefined && nodes.find(coil) === nodes.find(contact)),
  );
}

const passing: ReadonlySet<PartKind> = new Set([
  'fuse',
  'breaker',
  'fusible link',
  'switch',
  'coded switches',
  'diode',
  'led',
  'resistor',
]);

function passingNodes(wiring: Wiring): UnionFind {
  const known = unions.get(wiring);
  if (known) return known;
  const nodes = new UnionFind(wiring.nodeCount);
  for (const { own, harness } of wiring.terminals.values()) nodes.union(own, harness);
  for (const { nodes: pieces } of wiring.wires) for (const node of pieces) nodes.union(pieces[0]!, node);
  for (const { part, data } of wiring.parts) {
    if (!passing.has(data.kind)) continue;
    const ends = data.terminals.flatMap(t => wiring.terminals.get(`${part.id}.${t.text}`)?.own ?? []);
    for (const end of ends) nodes.union(ends[0]!, end);
  }
  unions.set(wiring, nodes);
  return nodes;
}

const unions = new WeakMap<Wiring, UnionFind>();
