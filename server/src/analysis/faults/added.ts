import type { NodeId } from '../../circuit/network.ts';
import type { FaultNote } from '../../model/system.ts';
import type { Wiring } from '../lower/wiring.ts';
import { bareMetal } from './extents.ts';
import type { Derived } from './fault.ts';
import { rubbed } from './surroundings.ts';
import { customary } from './weights.ts';
import { besideOf } from './wires.ts';

/**
 * A fault that the file adds. `… short to …` between two wires, points, grounds, `ground` or `supply` is electrical; anything else is
 * found by looking only. Nothing for one whose owner this variant does not have.
 */
export function addedFault(note: FaultNote, wiring: Wiring): Derived | undefined {
  const { id, place } = note;
  const short = id.indexOf(' short to ');
  const owner = short > 0 ? id.slice(0, short) : ownerIn(id, wiring);
  if (owner === undefined || !isHere(owner, wiring)) return undefined;
  const kind = id.slice(owner.length + 1);
  const other = short > 0 ? id.slice(short + ' short to '.length) : undefined;
  const title = other === undefined ? `${owner}: ${kind}` : `${owner} touches ${other}`;
  const common = { id, owner, mendedBy: [owner], kind, title, place, ...customary(1) };
  if (other === undefined) return { ...common, changes: () => [] };
  const between = meeting(owner, other, wiring);
  if (!between) return undefined;
  const mendedBy = isWire(other, wiring) ? [owner, other] : [owner];
  return {
    ...common,
    mendedBy,
    extent: bareMetal,
    changes: extent => [{ do: 'bridge', between, ohms: extent!.value }],
  };
}

function meeting(owner: string, other: string, wiring: Wiring): readonly [NodeId, NodeId] | undefined {
  const from = nodeOf(owner, wiring);
  const lines = [owner, other].map(id => wiring.wires.find(line => line.wire.id === id));
  const to =
    lines[0] && lines[1]
      ? besideOf(lines[0], lines[0].nodes[0]!, lines[1])
      : (named(other, wiring) ?? nodeOf(other, wiring));
  return from === undefined || to === undefined ? undefined : [from, to];
}

function named(other: string, wiring: Wiring): NodeId | undefined {
  const { ground, supply } = rubbed(wiring);
  if (other === 'ground' || other === 'negative') return ground;
  return other === 'supply' ? supply : undefined;
}

/** A wire touches at the end from which its line begins; a cavity on its first side. */
function nodeOf(name: string, { wires, terminals, cavities, grounds, splices }: Wiring): NodeId | undefined {
  return (
    wires.find(line => line.wire.id === name)?.nodes[0] ??
    terminals.get(name)?.harness ??
    cavities.get(name)?.[0]?.sides[0].node ??
    grounds.get(name) ??
    splices.get(name)
  );
}

function isWire(name: string, { wires }: Wiring): boolean {
  return wires.some(line => line.wire.id === name);
}

function isHere(name: string, wiring: Wiring): boolean {
  const { parts, system } = wiring;
  return nodeOf(name, wiring) !== undefined || parts.some(p => p.part.id === name) || system.connectors.has(name);
}

/** The longest beginning of the text that names something. */
function ownerIn(text: string, wiring: Wiring): string | undefined {
  for (let end = text.lastIndexOf(' '); end > 0; end = text.lastIndexOf(' ', end - 1)) {
    if (isHere(text.slice(0, end), wiring)) return text.slice(0, end);
  }
  return undefined;
}
