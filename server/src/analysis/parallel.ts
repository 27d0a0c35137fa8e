import { straighten } from '../circuit/bends/straighten.ts';
import type { Network, NodeId } from '../circuit/network.ts';
import { prune } from '../circuit/prune.ts';
import { influences, type Measurement, read } from '../circuit/reading.ts';
import type { Lead, MeterPlace } from '../model/step.ts';
import { belongsTo } from './belongs-to.ts';
import type { ParallelPath } from './electrical.ts';
import type { Wiring } from './lower/wiring.ts';
import { type Leads, placeLeads } from './measure.ts';
import type { Settled } from './settle.ts';
import type { Situation } from './situation.ts';

/**
 * What a resistance is also read through, beside the part or wire that the leads stand on: the classic wrong reading. Nothing
 * where there is no other path, or where nobody can say what the leads are meant to measure.
 */
export function parallelPath(
  wiring: Wiring,
  settled: Settled,
  at: MeterPlace,
  now: Situation,
): ParallelPath | undefined {
  const leads = placeLeads(wiring, at, now);
  if ('state' in leads || leads.red === undefined || leads.black === undefined) return undefined;
  const whole = { network: straighten(settled.bent, new Map()), measurement: idealOhms(leads.red, leads.black) };
  const { network, measurement } = prune(whole.network, whole.measurement)?.of() ?? whole;
  const all = influences(network, measurement);
  if (all.length === 0) return undefined;
  const meant = meantBy(wiring, at, leads, all);
  if (meant === undefined || isBent(settled, meant, all)) return undefined;
  const beside = influences(
    without(network, id => belongsTo(id, meant)),
    measurement,
  );
  const isInLine = (id: string) =>
    influences(
      without(network, one => one === id),
      measurement,
    ).length === 0;
  const shunts = beside.filter(id => !isInLine(id));
  if (shunts.length === 0) return undefined;
  const total = read(network, measurement);
  const around = new Set(shunts);
  const alone = read(
    without(network, id => around.has(id)),
    measurement,
  );
  if (total.state !== 'number') return undefined;
  return {
    meant,
    through: namesOf(wiring, shunts),
    ohms: total.nominal,
    aloneOhms: alone.state === 'number' ? alone.nominal : Number.POSITIVE_INFINITY,
  };
}

function idealOhms(red: number, black: number): Measurement {
  const leadsOhms = { low: 0, nominal: 0, high: 0 };
  return { measure: 'resistance', red, black, leadsOhms, overLimitOhms: Number.POSITIVE_INFINITY };
}

function without(network: Network, leaves: (id: string) => boolean): Network {
  return { ...network, elements: network.elements.filter(one => one.kind !== 'resistance' || !leaves(one.id)) };
}

/** A diode under the leads has no resistance of its own that could be told. */
function isBent({ bent }: Settled, meant: string, all: readonly string[]): boolean {
  return !all.some(id => belongsTo(id, meant)) && (bent.bends ?? []).some(({ id }) => belongsTo(id, meant));
}

/** Both leads on one part, on one wire; one on a part and the other on a ground or a module; or on both wires of one part. */
function meantBy(wiring: Wiring, at: MeterPlace, leads: Leads, all: readonly string[]): string | undefined {
  const [red, black] = [ownerOf(wiring, at.red), ownerOf(wiring, at.black)];
  if (red !== undefined && red === black) return isMeasurable(wiring, red) ? red : undefined;
  const conducts = (name: string) => all.some(id => belongsTo(id, name));
  const line = wiring.wires.find(({ nodes }) => nodes.includes(leads.red!) && nodes.includes(leads.black!));
  if (line) return conducts(line.wire.id) ? line.wire.id : undefined;
  const isMeant = (one: string | undefined): one is string =>
    one !== undefined && isMeasurable(wiring, one) && conducts(one);
  const touched = [red, black].filter(isMeant);
  const atBlack = new Set(wiredTo(wiring, leads.black!));
  const between = wiredTo(wiring, leads.red!).filter(one => atBlack.has(one) && isMeant(one));
  const candidates = new Set(touched.length > 0 ? touched : between);
  return candidates.size === 1 ? [...candidates][0] : undefined;
}

/** The parts at the ends of the wires that pass a point: at a plug that is off, what is measured lies at the far end. */
function wiredTo({ wires, terminals }: Wiring, node: NodeId): readonly string[] {
  const ends = wires.filter(({ nodes }) => nodes.includes(node)).flatMap(({ wire }) => [wire.from, wire.to]);
  return ends.flatMap(end => terminals.get(end?.text ?? '')?.part ?? []);
}

/** The part that the lead touches, or that hangs on the half of a plug that it touches. */
function ownerOf(wiring: Wiring, lead: Lead | undefined): string | undefined {
  const point = lead?.point.text ?? '';
  const terminal = wiring.terminals.get(point);
  if (terminal) return lead?.side?.text === 'harness' ? undefined : terminal.part;
  const sides = wiring.cavities.get(point)?.flatMap(({ sides }) => sides);
  const side = sides?.find(({ names }) => lead?.side === undefined || names.includes(lead.side.text));
  const [owner] = side?.names ?? [];
  return owner !== undefined && wiring.parts.some(({ part }) => part.id === owner) ? owner : undefined;
}

/** Nobody puts an ohmmeter to a module or a supply to learn its resistance. */
function isMeasurable(wiring: Wiring, name: string): boolean {
  const kind = wiring.parts.find(({ part }) => part.id === name)?.data.kind;
  return kind !== undefined && kind !== 'module' && kind !== 'battery' && kind !== 'supply';
}

/** `K3's coil`, `A1.14's pull-up`, `R2`. Wires and contacts lead to a part and are named only where there is none. */
function namesOf(wiring: Wiring, ids: readonly string[]): readonly string[] {
  const owned = ids.map(id => ({ id, owner: longestOwner(wiring, id) }));
  const parts = owned.filter(({ owner }) => owner !== undefined);
  const names = parts.length > 0 ? parts.map(({ id, owner }) => possessive(id, owner!)) : ids;
  return [...new Set(names)];
}

function longestOwner(wiring: Wiring, id: string): string | undefined {
  const owners = wiring.parts.map(({ part }) => part.id).filter(name => belongsTo(id, name));
  return owners.toSorted((a, b) => b.length - a.length)[0];
}

function possessive(id: string, owner: string): string {
  const cut = id.indexOf(' ', owner.length);
  return cut < 0 ? id : `${id.slice(0, cut)}'s ${id.slice(cut + 1)}`;
}
