import type { NodeId } from '../../circuit/network.ts';
import type { WiredLine, Wiring } from '../lower/wiring.ts';
import type { Tie } from './change.ts';
import { badJoint, bareMetal } from './extents.ts';
import type { Derived, Extent } from './fault.ts';
import type { Rubbed } from './surroundings.ts';
import { weight } from './weights.ts';

/** A stretch of a wire between two places where it can be taken apart. */
interface Piece {
  readonly tie: Tie;
  /** ` before X12/3`; empty for a wire that passes no connector. */
  readonly at: string;
  readonly where: string;
  readonly sharedBy: number;
}

/**
 * Each piece between connectors is broken, bad or rubbed through by itself, as it reads differently with the connector apart; what
 * is known of the whole wire is shared by its pieces. A rubbed wire touches at the end from which its line begins.
 */
export function wireFaults(wiring: Wiring, touching: Rubbed): Derived[] {
  return wiring.wires.flatMap(line => piecesOf(line).flatMap(piece => pieceFaults(wiring, touching, line, piece)));
}

function piecesOf({ wire, nodes }: WiredLine): readonly Piece[] {
  const sharedBy = nodes.length / 2;
  const passed = wire.through.map(p => p.text).slice(0, sharedBy - 1);
  const places = [wire.from?.text ?? '', ...passed, wire.to?.text ?? ''];
  return Array.from({ length: sharedBy }, (_, i) => ({
    tie: { between: [nodes[2 * i]!, nodes[2 * i + 1]!], wire: wire.id },
    at: sharedBy === 1 ? '' : i < passed.length ? ` before ${passed[i]}` : ` after ${passed[i - 1]}`,
    where: `between ${places[i]} and ${places[i + 1]}`,
    sharedBy,
  }));
}

function pieceFaults(wiring: Wiring, touching: Rubbed, line: WiredLine, piece: Piece): Derived[] {
  const { tie, at, where, sharedBy } = piece;
  const { wire } = line;
  const common = { owner: wire.id, mendedBy: [wire.id], where, place: wire.place };
  const node = tie.between[0];
  const found: Derived[] = [
    {
      ...common,
      ...weight('connector', 'open', sharedBy),
      id: `${wire.id} open${at}`,
      kind: 'open',
      title: `${wire.id} is broken ${where}`,
      changes: () => [{ do: 'cut', tie }],
    },
    {
      ...common,
      ...weight('connector', 'poor contact', sharedBy),
      id: `${wire.id} high resistance${at}`,
      kind: 'high resistance',
      title: `${wire.id} has a bad spot ${where}`,
      extent: badJoint(wire.size),
      changes: extent => [{ do: 'resist', tie, ohms: extent!.value }],
    },
  ];
  const neighbours = neighboursOf(wiring, line);
  const { ground, supply, isolated } = touching;
  const toGround = ground !== undefined && !touching.atGround(node);
  const toSupply = supply !== undefined && !touching.atSupply(node) && !touching.atGround(node);
  const ways = neighbours.length + Number(toGround) + Number(toSupply);
  const short = (to: string, other: number): Derived => ({
    ...common,
    ...weight('connector', 'short', ways * sharedBy),
    id: `${wire.id} short to ${to}${at}`,
    kind: `short to ${to}`,
    title: `${wire.id} touches ${to} ${where}`,
    extent: bareMetal,
    changes: (extent: Extent | undefined) => [{ do: 'bridge', between: [node, other], ohms: extent!.value }],
  });
  if (toGround) found.push(short(isolated ? 'negative' : 'ground', ground));
  if (toSupply) found.push(short('supply', supply));
  for (const other of neighbours) {
    const fault = short(other.wire.id, besideOf(line, node, other));
    found.push({ ...fault, mendedBy: [wire.id, other.wire.id] });
  }
  return found;
}

/** Two wires that name one another are one pair, told at the first. */
function neighboursOf({ wires }: Wiring, { wire }: WiredLine): readonly WiredLine[] {
  if (wire.beside.length === 0) return [];
  const at = wires.findIndex(line => line.wire === wire);
  return wire.beside.flatMap(({ text }) => {
    const other = wires.findIndex(line => line.wire.id === text);
    const told = other < at && wires[other]?.wire.beside.some(ref => ref.text === wire.id);
    return other < 0 || other === at || told ? [] : [wires[other]!];
  });
}

/** The node of a neighbour on the same side of the connectors that both pass; its beginning where they pass different ones. */
export function besideOf(line: WiredLine, node: NodeId, other: WiredLine): NodeId {
  const [mine, theirs] = [line, other].map(({ wire }) =>
    wire.through.map(p => p.text.slice(0, p.text.lastIndexOf('/'))),
  );
  const at = line.nodes.indexOf(node);
  const last = other.nodes.length - 1;
  if (mine!.join() === theirs!.join() && sameWay(line, other)) return other.nodes[at] ?? other.nodes[0]!;
  return mine!.join() === theirs!.toReversed().join() ? (other.nodes[last - at] ?? other.nodes[0]!) : other.nodes[0]!;
}

/** Whether two wires through the same connectors were written in the same direction, by the parts at their ends. */
function sameWay(line: WiredLine, other: WiredLine): boolean {
  const owner = (point: string | undefined) => point?.slice(0, point.lastIndexOf('.') >>> 0);
  const [from, to] = [owner(line.wire.from?.text), owner(line.wire.to?.text)];
  return !(from === owner(other.wire.to?.text) || to === owner(other.wire.from?.text));
}
