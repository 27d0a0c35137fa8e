import type { NodeId } from '../../circuit/network.ts';
import { existsIn } from '../../model/common.ts';
import { type Part, type PartData, partIn } from '../../model/parts.ts';
import type { System, Wire } from '../../model/system.ts';

/** The frame: what every ground is tied to. */
export const frame: NodeId = 0;

/**
 * The nodes of a system in one variant. A terminal has a node on the part and one on the harness, which are one while its plug
 * is on; a cavity has a node on each side for every wire that passes it, tied by its contact while the connector is mated.
 */
export interface Wiring {
  readonly system: System;
  readonly variant: string;
  readonly nodeCount: number;
  readonly parts: readonly { readonly part: Part; readonly data: PartData }[];
  readonly wires: readonly WiredLine[];
  readonly terminals: ReadonlyMap<string, Terminal>;
  readonly cavities: ReadonlyMap<string, readonly Passage[]>;
  readonly grounds: ReadonlyMap<string, NodeId>;
  readonly splices: ReadonlyMap<string, NodeId>;
}

export interface Terminal {
  readonly part: string;
  readonly own: NodeId;
  readonly harness: NodeId;
}

/** One wire passing one cavity; the sides carry the names of what lies that way. */
export interface Passage {
  readonly connector: string;
  readonly cavity: string;
  readonly wire: Wire;
  readonly sides: readonly [Side, Side];
}

export interface Side {
  readonly node: NodeId;
  readonly names: readonly string[];
}

/** A wire with the nodes of its pieces in order: from, then two for each cavity passed, then to. */
export interface WiredLine {
  readonly wire: Wire;
  readonly nodes: readonly NodeId[];
}

/** The wires, with ends that name nothing left out; rules report those. */
export function wire(system: System, variant: string): Wiring {
  let nodeCount = 1;
  const fresh = () => nodeCount++;
  const parts = [...system.parts.values()]
    .filter(p => existsIn(p, variant))
    .map(part => ({ part, data: partIn(part, variant) }));
  const terminals = new Map<string, Terminal>();
  for (const { part, data } of parts) {
    for (const name of terminalNames(data, variant)) {
      terminals.set(`${part.id}.${name}`, { part: part.id, own: fresh(), harness: fresh() });
    }
  }
  const named = (ids: Iterable<string>) => new Map([...ids].map(id => [id, fresh()]));
  const grounds = named([...system.grounds.values()].filter(g => existsIn(g, variant)).map(g => g.id));
  const splices = named(system.splices.keys());
  const cavityNames = cavitiesOf(system, variant);
  const cavities = new Map<string, Passage[]>([...cavityNames.keys()].map(name => [name, []]));
  const endNode = (point: string) => terminals.get(point)?.harness ?? grounds.get(point) ?? splices.get(point);

  const wires: WiredLine[] = [];
  for (const line of system.wires) {
    if (!existsIn(line, variant)) continue;
    const from = endNode(line.from?.text ?? '');
    const to = endNode(line.to?.text ?? '');
    if (from === undefined || to === undefined) continue;
    const passed = line.through.map(p => p.text).filter(p => cavities.has(p));
    const nodes = [from, ...passed.flatMap(() => [fresh(), fresh()]), to];
    passed.forEach((point, i) => {
      const before = { node: nodes[2 * i + 1]!, names: sideNames(line.from!.text, passed.slice(0, i)) };
      const after = { node: nodes[2 * i + 2]!, names: sideNames(line.to!.text, passed.slice(i + 1)) };
      cavities.get(point)!.push({ ...cavityNames.get(point)!, wire: line, sides: [before, after] });
    });
    wires.push({ wire: line, nodes });
  }
  return { system, variant, nodeCount, parts, wires, terminals, cavities, grounds, splices };
}

/** Names of the terminals that a part has in a variant. */
export function terminalNames(data: PartData, variant: string): readonly string[] {
  if (data.kind === 'module') return [...data.pins.values()].filter(p => existsIn(p, variant)).map(p => p.id);
  return data.terminals.map(t => t.text);
}

function cavitiesOf(system: System, variant: string) {
  const found = new Map<string, { connector: string; cavity: string }>();
  for (const connector of system.connectors.values()) {
    if (!existsIn(connector, variant)) continue;
    for (const { text: cavity } of connector.cavities) {
      found.set(`${connector.id}/${cavity}`, { connector: connector.id, cavity });
    }
  }
  return found;
}

/** A side is named by the part, ground or splice at that end of the wire, or by a connector passed on the way. */
function sideNames(end: string, passed: readonly string[]): readonly string[] {
  const dot = end.lastIndexOf('.');
  const owner = dot < 0 ? end : end.slice(0, dot);
  return [owner, end, ...passed.map(p => p.slice(0, p.lastIndexOf('/')))];
}
