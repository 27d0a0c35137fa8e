import { wireOhms } from '../../circuit/conductor/wire.ts';
import type { Bent, Element, Network, NodeId } from '../../circuit/network.ts';
import type { Wire } from '../../model/system.ts';
import type { Situation } from '../situation.ts';
import { KnownParts } from './known-parts.ts';
import type { Sense } from './surroundings.ts';
import { frame, type WiredLine, type Wiring } from './wiring.ts';

/** A network for one situation, with where the parts that are not computed touch it. */
export interface Lowered {
  readonly network: Network;
  /** What turns relays, modules and transistors on and off. */
  readonly senses: readonly Sense[];
  /** Parts whose behaviour is not computed. */
  readonly unknown: ReadonlyMap<string, Unknown>;
}

export interface Unknown {
  readonly nodes: readonly NodeId[];
  /** A supply without a voltage that could be read: what it touches is not without voltage for that. */
  readonly drives: boolean;
}

/** `isOn` tells what relays, modules and outputs do: whether one is pulled in, powered, on. */
export function lower(wiring: Wiring, situation: Situation, isOn: (name: string) => boolean): Lowered {
  const { parts, lines, plugs, contacts } = fixedOf(wiring);
  const elements: Element[] = [];
  const joins = [...lines.joins];
  const bends: Bent[] = [];
  const senses: Sense[] = [];
  const unknown = new Map<string, Unknown>();

  for (const { part, data } of wiring.parts) {
    const found = parts.elements(part, data, situation, isOn);
    elements.push(...found.elements);
    joins.push(...found.joins);
    bends.push(...found.bends);
    senses.push(...found.senses);
    const drives = data.kind === 'battery' || data.kind === 'supply';
    if (found.unknown.length > 0) unknown.set(part.id, { nodes: found.unknown, drives });
  }
  for (const { part, join } of plugs) if (!situation.apart.has(part)) joins.push(join);
  elements.push(...lines.elements);
  for (const { connector, contact } of contacts) {
    if (situation.apart.has(connector)) continue;
    elements.push(...contact.elements);
    joins.push(...contact.joins);
  }
  return { network: { nodeCount: parts.nodeCount, elements, joins, bends }, senses, unknown };
}

/** What of a network is the same in every situation. */
interface Fixed {
  readonly parts: KnownParts;
  readonly lines: Lines;
  readonly plugs: readonly { readonly part: string; readonly join: readonly [NodeId, NodeId] }[];
  readonly contacts: readonly { readonly connector: string; readonly contact: Lines }[];
}

interface Lines {
  readonly elements: Element[];
  readonly joins: (readonly [NodeId, NodeId])[];
}

function fixedOf(wiring: Wiring): Fixed {
  const known = fixed.get(wiring);
  if (known) return known;
  const plugs = [...wiring.terminals.values()].map(({ part, own, harness }) => ({
    part,
    join: [own, harness] as const,
  }));
  const fresh = { parts: new KnownParts(wiring), lines: linesOf(wiring), plugs, contacts: contactsOf(wiring) };
  fixed.set(wiring, fresh);
  return fresh;
}

const fixed = new WeakMap<Wiring, Fixed>();

function contactsOf({ system, cavities }: Wiring): Fixed['contacts'] {
  return [...cavities.values()].flat().map(({ connector, cavity, wire, sides: [a, b] }) => {
    const twin = (cavities.get(`${connector}/${cavity}`)?.length ?? 0) > 1;
    const label = `${connector}/${cavity} contact${twin ? ` of ${wire.id}` : ''}`;
    const contact: Lines = { elements: [], joins: [] };
    addResistance(
      contact.elements,
      contact.joins,
      label,
      a.node,
      b.node,
      system.connectors.get(connector)?.contactOhms,
    );
    return { connector, contact };
  });
}

/** Grounds and wires. */
function linesOf({ system, grounds, wires }: Wiring): Lines {
  const elements: Element[] = [];
  const joins: [NodeId, NodeId][] = [];
  for (const [id, node] of grounds) {
    addResistance(elements, joins, `${id} contact`, node, frame, system.grounds.get(id)?.contactOhms);
  }
  for (const line of wires) addWire(elements, joins, line, system.temperatureC);
  return { elements, joins };
}

/** The pieces of a wire between connectors are cut separately and share its resistance equally. */
function addWire(
  elements: Element[],
  joins: (readonly [NodeId, NodeId])[],
  { wire, nodes }: WiredLine,
  temperatureC: number,
): void {
  const pieces = nodes.length / 2;
  const whole = wholeOhms(wire, temperatureC);
  const ohms = whole && { low: whole.low / pieces, nominal: whole.nominal / pieces, high: whole.high / pieces };
  for (let i = 0; i < pieces; i++) {
    const label = pieces === 1 ? wire.id : `${wire.id} ${pieceName(wire, i)}`;
    addResistance(elements, joins, label, nodes[2 * i]!, nodes[2 * i + 1]!, ohms);
  }
}

function wholeOhms(wire: Wire, temperatureC: number) {
  const { statedOhms, size, lengthM, strands } = wire;
  if (statedOhms) return statedOhms;
  return size && lengthM !== undefined ? wireOhms(size, lengthM, temperatureC, strands) : undefined;
}

function pieceName(wire: Wire, i: number): string {
  const passed = wire.through[i]?.text;
  return passed ? `before ${passed}` : `after ${wire.through[i - 1]?.text}`;
}

function addResistance(
  elements: Element[],
  joins: (readonly [NodeId, NodeId])[],
  id: string,
  a: NodeId,
  b: NodeId,
  ohms: { low: number; nominal: number; high: number } | undefined,
): void {
  if (ohms === undefined) joins.push([a, b]);
  else elements.push({ kind: 'resistance', id, a, b, ohms });
}
