import { wireOhms } from '../../circuit/conductor/wire.ts';
import type { Bent, Element, Network, NodeId } from '../../circuit/network.ts';
import type { Wire } from '../../model/system.ts';
import type { Situation } from '../situation.ts';
import { partElements } from './part-elements.ts';
import type { Sense, Surroundings } from './surroundings.ts';
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
  const { system, variant } = wiring;
  const { elements: lineElements, joins: lineJoins } = linesOf(wiring);
  const elements: Element[] = [];
  const joins = [...lineJoins];
  const bends: Bent[] = [];
  const senses: Sense[] = [];
  const unknown = new Map<string, Unknown>();
  let nodeCount = wiring.nodeCount;
  const apart = (name: string) => situation.apart.has(name);

  for (const { part, data } of wiring.parts) {
    const around: Surroundings = {
      variant,
      temperatureC: system.temperatureC,
      stateOf: name => stateOf(situation, name),
      spanOf: name => system.conditions.get(name)?.number,
      isOn,
      node: terminal => wiring.terminals.get(`${part.id}.${terminal}`)?.own,
      fresh: () => nodeCount++,
    };
    const found = partElements(part.id, data, around);
    elements.push(...found.elements);
    joins.push(...found.joins);
    bends.push(...found.bends);
    senses.push(...found.senses);
    const drives = data.kind === 'battery' || data.kind === 'supply';
    if (found.unknown.length > 0) unknown.set(part.id, { nodes: found.unknown, drives });
  }
  for (const terminal of wiring.terminals.values()) {
    if (!apart(terminal.part)) joins.push([terminal.own, terminal.harness]);
  }
  elements.push(...lineElements);
  for (const passage of [...wiring.cavities.values()].flat()) {
    if (apart(passage.connector)) continue;
    const twin = (wiring.cavities.get(`${passage.connector}/${passage.cavity}`)?.length ?? 0) > 1;
    const label = `${passage.connector}/${passage.cavity} contact${twin ? ` of ${passage.wire.id}` : ''}`;
    const [a, b] = passage.sides;
    addResistance(elements, joins, label, a.node, b.node, system.connectors.get(passage.connector)?.contactOhms);
  }
  return { network: { nodeCount, elements, joins, bends }, senses, unknown };
}

export function stateOf(situation: Situation, name: string): readonly string[] {
  const state = situation.states.get(name);
  return state === undefined ? [] : [state];
}

/** Grounds and wires, which are the same in every situation. */
function linesOf(wiring: Wiring): Pick<Network, 'elements' | 'joins'> {
  const known = lines.get(wiring);
  if (known) return known;
  const { system, grounds, wires } = wiring;
  const elements: Element[] = [];
  const joins: [NodeId, NodeId][] = [];
  for (const [id, node] of grounds) {
    addResistance(elements, joins, `${id} contact`, node, frame, system.grounds.get(id)?.contactOhms);
  }
  for (const line of wires) addWire(elements, joins, line, system.temperatureC);
  const fresh = { elements, joins };
  lines.set(wiring, fresh);
  return fresh;
}

const lines = new WeakMap<Wiring, Pick<Network, 'elements' | 'joins'>>();

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
  if (wire.statedOhms) return wire.statedOhms;
  return wire.size && wire.lengthM !== undefined ? wireOhms(wire.size, wire.lengthM, temperatureC) : undefined;
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
