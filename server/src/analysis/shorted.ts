import { type Network, rangeOf } from '../circuit/network.ts';
import { mergedNodes } from '../circuit/topology.ts';
import { partIn } from '../model/parts.ts';
import { belongsToOneOf } from './belongs-to.ts';
import { internalOf } from './lower/part-elements.ts';
import type { Wiring } from './lower/wiring.ts';

export interface Short {
  /** One, or two of which each has its plus at the minus of the other. */
  readonly supplies: readonly string[];
  /** What the current flows through on its way from one terminal to the other, in order; nothing is told of two. */
  readonly through: readonly string[];
  /** At nominal values; nothing is told of two. */
  readonly amps?: number;
}

/**
 * Supplies between whose terminals there is a way through nothing but wires, contacts and fuses: a short, however little resistance
 * these have. Those without any resistance at all are left to the topology, for with them there is no solution.
 */
export function shorts(network: Network, wiring: Wiring): readonly Short[] {
  const { of: nodeOf } = mergedNodes(network);
  const ways = waysThrough(network, nodeOf, conductorsOf(wiring));
  const supplies = network.elements.flatMap(one => {
    if (one.kind !== 'voltage') return [];
    const inside = network.elements.find(other => other.id === internalOf(one.id));
    const [plus, minus] = [nodeOf[inside?.kind === 'resistance' ? inside.b : one.plus]!, nodeOf[one.minus]!];
    return [{ id: one.id, plus, minus, volts: one.volts.nominal, ohms: inside ? rangeOf(inside).nominal : 0 }];
  });
  const alone = supplies.flatMap(({ id, plus, minus, volts, ohms: inside }): Short[] => {
    const path = shortest(ways, plus, minus);
    const ohms = (path ?? []).reduce((sum, way) => sum + way.ohms, inside);
    if (!path || ohms === 0) return [];
    return [{ supplies: [id], through: path.map(way => way.id), amps: Math.abs(volts) / ohms }];
  });
  const isRound = (one: (typeof supplies)[number], other: typeof one) =>
    one.volts * other.volts > 0 &&
    shortest(ways, one.plus, other.minus) !== undefined &&
    shortest(ways, other.plus, one.minus) !== undefined;
  const shorted = new Set(alone.flatMap(one => one.supplies));
  const free = supplies.filter(({ id }) => !shorted.has(id));
  const rounds = free.flatMap((one, i) =>
    free.slice(i + 1).flatMap(other => (isRound(one, other) ? [{ supplies: [one.id, other.id], through: [] }] : [])),
  );
  return [...alone, ...rounds];
}

interface Way {
  readonly id: string;
  readonly to: number;
  readonly ohms: number;
}

function waysThrough(
  network: Network,
  nodeOf: ArrayLike<number>,
  conducts: (id: string) => boolean,
): ReadonlyMap<number, readonly Way[]> {
  const ways = new Map<number, Way[]>();
  const add = (from: number, way: Way) => {
    const known = ways.get(from);
    if (known) known.push(way);
    else ways.set(from, [way]);
  };
  for (const one of network.elements) {
    const { id } = one;
    if (one.kind !== 'resistance' || !conducts(id)) continue;
    const [a, b, ohms] = [nodeOf[one.a]!, nodeOf[one.b]!, one.ohms.nominal];
    add(a, { id, to: b, ohms });
    add(b, { id, to: a, ohms });
  }
  return ways;
}

/** The way with the fewest elements. */
function shortest(ways: ReadonlyMap<number, readonly Way[]>, from: number, to: number): readonly Way[] | undefined {
  const before = new Map<number, { readonly node: number; readonly way: Way }>();
  const waiting = [from];
  for (let node = waiting.shift(); node !== undefined && node !== to; node = waiting.shift()) {
    for (const way of ways.get(node) ?? []) {
      if (way.to === from || before.has(way.to)) continue;
      before.set(way.to, { node, way });
      waiting.push(way.to);
    }
  }
  const path: Way[] = [];
  for (let node = to; node !== from; ) {
    const last = before.get(node);
    if (!last) return undefined;
    path.unshift(last.way);
    node = last.node;
  }
  return path;
}

/** Whether an element only leads a current on. */
function conductorsOf(wiring: Wiring): (id: string) => boolean {
  const before = known.get(wiring);
  if (before) return before;
  const { system, variant } = wiring;
  const names = new Set([...system.wires.map(({ id }) => id), ...system.connectors.keys(), ...system.grounds.keys()]);
  for (const part of system.parts.values()) {
    const { kind } = partIn(part, variant);
    if (kind === 'relay') names.add(`${part.id} contact`);
    if (kind === 'switch' || kind === 'fuse' || kind === 'breaker' || kind === 'fusible link') names.add(part.id);
  }
  const found = new Map<string, boolean>();
  const conducts = (id: string) => {
    const is = found.get(id) ?? belongsToOneOf(id, names);
    found.set(id, is);
    return is;
  };
  known.set(wiring, conducts);
  return conducts;
}

const known = new WeakMap<Wiring, (id: string) => boolean>();
