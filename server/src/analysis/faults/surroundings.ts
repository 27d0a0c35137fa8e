import type { NodeId } from '../../circuit/network.ts';
import { UnionFind } from '../../graph/union-find.ts';
import type { PartData } from '../../model/parts.ts';
import { frame, type Wiring } from '../lower/wiring.ts';

/** What a wire may touch where its insulation is gone. */
export interface Rubbed {
  /** The frame; where nothing is tied to it, the negative side of the first supply. */
  readonly ground?: NodeId;
  /** Whether the ground is that of a machine whose frame carries nothing. */
  readonly isolated: boolean;
  /** The positive terminal of the first battery or supply, on the harness. */
  readonly supply?: NodeId;
  readonly supplyName?: string;
  /** Whether wires, contacts in plugs and fuses alone lead from the node to the ground, or to the supply. */
  atGround(node: NodeId): boolean;
  atSupply(node: NodeId): boolean;
}

export function rubbed(wiring: Wiring): Rubbed {
  const { parts, terminals, grounds } = wiring;
  const first = parts.find(p => p.data.kind === 'battery') ?? parts.find(p => p.data.kind === 'supply');
  const [plus, minus] = first
    ? first.data.terminals.map(t => terminals.get(`${first.part.id}.${t.text}`)?.harness)
    : [];
  const isolated = grounds.size === 0;
  const ground = isolated ? minus : frame;
  const harness = harnessOf(wiring);
  const withFuses = harnessOf(wiring, data => protective.has(data.kind));
  const grounded = ground === undefined ? undefined : harness.find(ground);
  const live = plus === undefined ? undefined : withFuses.find(plus);
  return {
    ground,
    isolated,
    supply: plus,
    supplyName: first?.part.id,
    atGround: node => harness.find(node) === grounded,
    atSupply: node => withFuses.find(node) === live,
  };
}

const protective: ReadonlySet<PartData['kind']> = new Set(['fuse', 'breaker', 'fusible link']);

/** The nodes that wires, mated plugs and grounds make one, and the parts that are asked for. */
function harnessOf(
  { nodeCount, wires, cavities, grounds, parts, terminals }: Wiring,
  through = (_: PartData) => false,
) {
  const sets = new UnionFind(nodeCount);
  for (const { nodes } of wires) for (let i = 0; i < nodes.length; i += 2) sets.union(nodes[i]!, nodes[i + 1]!);
  for (const { sides } of [...cavities.values()].flat()) sets.union(sides[0].node, sides[1].node);
  for (const node of grounds.values()) sets.union(node, frame);
  for (const { part, data } of parts) {
    if (!through(data)) continue;
    const [a, b] = data.terminals.map(t => terminals.get(`${part.id}.${t.text}`)?.harness);
    if (a !== undefined && b !== undefined) sets.union(a, b);
  }
  return sets;
}
