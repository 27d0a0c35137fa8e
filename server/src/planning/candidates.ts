import { wire } from '../analysis/lower/wiring.ts';
import type { Situation } from '../analysis/situation.ts';
import { blackLead, linesOf } from '../analysis/values/lines.ts';
import { existsIn } from '../model/common.ts';
import { type PartData, partIn } from '../model/parts.ts';
import type { System } from '../model/system.ts';
import type { Bench } from './bench.ts';
import type { Candidate } from './candidate.ts';
import type { Suspect } from './suspect.ts';

/** Minutes to look at something, and to put a lead to a point or call up scan data, once it can be reached. Common practice, no source. */
const lookMin = 2;
const probeMin = 1;
/** To reach what the file says nothing of. */
const reachMin = 1;

/**
 * What can be looked at, read and measured while the machine is in one situation: every item that fails, every datum of a module, the
 * voltage of every point that a lead can go to. Places at parts that can hurt by their voltage, or that a lead can set off, are left out.
 */
export function candidatesIn(one: Bench, situation: Situation, suspects: readonly Suspect[]): readonly Candidate[] {
  return [...inspections(one, suspects), ...scanData(one, situation, suspects), ...voltages(one, situation, suspects)];
}

function inspections({ system, variant }: Bench, suspects: readonly Suspect[]): readonly Candidate[] {
  return partsIn(system, variant).flatMap(([id, data]): Candidate[] => {
    if (data.kind !== 'item' || data.fails.size === 0) return [];
    const shown = suspects.map(({ fault }) => (fault?.owner === id ? fault.kind : 'sound'));
    return [{ what: { do: 'inspect', item: id }, minutes: lookMin + (data.accessMin ?? reachMin), shown }];
  });
}

function scanData(
  { system, variant, circuit }: Bench,
  now: Situation,
  suspects: readonly Suspect[],
): readonly Candidate[] {
  return partsIn(system, variant).flatMap(([module, data]): Candidate[] => {
    if (data.kind !== 'module') return [];
    const withStates = [...data.scanData.values()].filter(
      datum => existsIn(datum, variant) && datum.states.length > 0 && datum.from,
    );
    return withStates.map(({ id: datum }) => {
      const shown = suspects.map(one => circuit.scanStates(module, datum, now, one.nominal)[0] ?? '');
      return { what: { do: 'read', module, datum }, minutes: probeMin, shown };
    });
  });
}

function voltages(
  { system, variant, circuit }: Bench,
  now: Situation,
  suspects: readonly Suspect[],
): readonly Candidate[] {
  const wiring = wire(system, variant);
  const lines = linesOf(wiring);
  const black = blackLead(wiring, lines);
  if (black === undefined) return [];
  const potentials = suspects.map(one => circuit.potentials(now, one.nominal));
  return lines
    .flatMap(({ points }) => points)
    .filter(point => point !== black && !wiring.splices.has(point) && isSafe(point, system, variant))
    .map(red => {
      const shown = potentials.map(between => (between ? between(red, black) : 'not settled'));
      return { what: { do: 'measure', red, black }, minutes: probeMin + reachOf(red, system, variant), shown };
    });
}

/** Parts whose voltage hurts, or that a current can set off, are left to the maker's own procedure. */
const forbidden: ReadonlySet<string> = new Set(['high voltage', 'pyrotechnic']);

function isSafe(point: string, system: System, variant: string): boolean {
  const part = system.parts.get(ownerOf(point));
  return !part || !partIn(part, variant).hazards.some(({ text }) => forbidden.has(text));
}

function reachOf(point: string, system: System, variant: string): number {
  const owner = ownerOf(point);
  const part = system.parts.get(owner);
  return (part ? partIn(part, variant).accessMin : system.connectors.get(owner)?.accessMin) ?? reachMin;
}

/** The part or connector that a point belongs to; a ground is its own. */
function ownerOf(point: string): string {
  const cut = Math.max(point.lastIndexOf('.'), point.lastIndexOf('/'));
  return cut < 0 ? point : point.slice(0, cut);
}

function partsIn(system: System, variant: string): readonly (readonly [string, PartData])[] {
  return [...system.parts.values()]
    .filter(part => existsIn(part, variant))
    .map(part => [part.id, partIn(part, variant)]);
}
