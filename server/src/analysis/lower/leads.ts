import type { NodeId } from '../../circuit/network.ts';
import type { PartKind } from '../../model/parts.ts';
import type { Lead } from '../../model/step.ts';
import type { LeadReason } from '../electrical.ts';
import type { Situation } from '../situation.ts';
import type { Wiring } from './wiring.ts';

/** Terminals of these stand open: posts, studs, the test points of fuses, the leads of bare resistors. Others are inside a plug unless the part names them as `studs`. */
const openKinds: ReadonlySet<PartKind> = new Set([
  'battery',
  'supply',
  'fuse',
  'breaker',
  'fusible link',
  'motor',
  'resistor',
]);

/** The node that a lead touches, or why it cannot be put there. */
export function leadNode(wiring: Wiring, lead: Lead, situation: Situation): NodeId | LeadReason {
  const point = lead.point.text;
  const ground = wiring.grounds.get(point) ?? wiring.splices.get(point);
  if (ground !== undefined) return ground;
  const terminal = wiring.terminals.get(point);
  if (terminal) {
    const apart = situation.apart.has(terminal.part);
    const sides = ['part', 'harness'];
    if (apart && !lead.side) return { kind: 'which side', sides };
    if (lead.side && !sides.includes(lead.side.text)) return { kind: 'unknown side', sides };
    if (!apart && !lead.backProbe && !isOpen(wiring, terminal.part, point))
      return { kind: 'mated', connector: terminal.part };
    return lead.side?.text === 'part' ? terminal.own : terminal.harness;
  }
  const passages = wiring.cavities.get(point);
  if (passages) {
    const sides = passages.flatMap(p => p.sides);
    const names = [...new Set(sides.map(s => s.names[0]!))];
    const connector = point.slice(0, point.lastIndexOf('/'));
    const apart = situation.apart.has(connector);
    const wanted = lead.side?.text;
    const chosen = wanted === undefined ? (apart ? undefined : sides[0]) : sides.find(s => s.names.includes(wanted));
    if (chosen) return apart || lead.backProbe ? chosen.node : { kind: 'mated', connector };
    return { kind: wanted === undefined ? 'which side' : 'unknown side', sides: names };
  }
  return { kind: existsElsewhere(wiring, point) ? 'not in this variant' : 'unknown point' };
}

/** Every point of a system in one variant. */
export function pointNames(wiring: Wiring): ReadonlySet<string> {
  const { terminals, cavities, grounds, splices } = wiring;
  return new Set([...terminals.keys(), ...cavities.keys(), ...grounds.keys(), ...splices.keys()]);
}

function isOpen(wiring: Wiring, part: string, point: string): boolean {
  const data = wiring.parts.find(p => p.part.id === part)?.data;
  return data !== undefined && (openKinds.has(data.kind) || data.studs.some(t => `${part}.${t.text}` === point));
}

/** A point of a part, pin, connector or ground that other variants have. */
function existsElsewhere({ system }: Wiring, point: string): boolean {
  const [part, connector] = [point.slice(0, point.lastIndexOf('.')), point.slice(0, point.lastIndexOf('/'))];
  if (system.grounds.has(point)) return true;
  if (system.connectors.get(connector)?.cavities.some(c => `${connector}/${c.text}` === point)) return true;
  const found = system.parts.get(part);
  const terminal = point.slice(part.length + 1);
  return (
    found !== undefined &&
    [found.data, ...found.byVariant.values()].some(d => d.terminals.some(t => t.text === terminal))
  );
}
