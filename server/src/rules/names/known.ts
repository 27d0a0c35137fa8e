import type { Declared } from '../../model/common.ts';
import { type Module, ownStates, type Part, type PartData, type ScanDatum } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';

/** Every name of a system, over all its variants, in the groups in which names are asked for. */
export interface KnownNames {
  readonly system: System;
  /** Parts, wires, connectors, grounds and splices: what can be looked at, mended or replaced. */
  readonly things: ReadonlyMap<string, Thing>;
  /** Where a wire can end and a lead can go. */
  readonly points: ReadonlySet<string>;
  /** Conditions, and parts that are set by their own name, with their states. */
  readonly settable: ReadonlyMap<string, Settable>;
}

export interface Thing extends Declared {
  readonly sort: 'part' | 'wire' | 'connector' | 'ground' | 'splice';
}

export interface Settable {
  readonly sort: 'condition' | 'part';
  readonly place: Declared['place'];
  /** Empty for a condition with a number. */
  readonly states: readonly string[];
}

export function knownNames(system: System): KnownNames {
  const before = cache.get(system);
  if (before) return before;
  const names = { system, things: things(system), points: points(system), settable: settable(system) };
  cache.set(system, names);
  return names;
}

const cache = new WeakMap<System, KnownNames>();

function things(system: System): ReadonlyMap<string, Thing> {
  const found = new Map<string, Thing>();
  const add = (sort: Thing['sort'], declared: Iterable<Declared>) => {
    for (const { id, place, entry, title } of declared)
      if (!found.has(id)) found.set(id, { id, place, entry, title, sort });
  };
  add('part', system.parts.values());
  add('connector', system.connectors.values());
  add('ground', system.grounds.values());
  add('splice', system.splices.values());
  add('wire', system.wires);
  return found;
}

function points(system: System): ReadonlySet<string> {
  const found = new Set<string>([...system.grounds.keys(), ...system.splices.keys()]);
  for (const part of system.parts.values()) for (const t of terminalsOf(part)) found.add(`${part.id}.${t}`);
  for (const { id, cavities } of system.connectors.values()) for (const c of cavities) found.add(`${id}/${c.text}`);
  return found;
}

function settable(system: System): ReadonlyMap<string, Settable> {
  const found = new Map<string, Settable>();
  for (const { id, place, states } of system.conditions.values()) {
    found.set(id, { sort: 'condition', place, states: states.map(s => s.text) });
  }
  for (const part of system.parts.values()) {
    const states = [...new Set(variantsOf(part).flatMap(ownStates))];
    if (states.length > 0 && !found.has(part.id)) found.set(part.id, { sort: 'part', place: part.place, states });
  }
  return found;
}

/** What the part is in general, and in each variant that replaces something. */
export function variantsOf(part: Part): readonly PartData[] {
  return [part.data, ...part.byVariant.values()];
}

export function terminalsOf(part: Part): readonly string[] {
  return [...new Set(variantsOf(part).flatMap(data => data.terminals.map(t => t.text)))];
}

export function modulesOf(part: Part): readonly Module[] {
  return variantsOf(part).filter(data => data.kind === 'module') as (PartData & Module)[];
}

/** `A1 keypad`: both names may hold blanks, so every split is tried. */
export function findDatum(system: System, text: string): { part?: Part; datum?: ScanDatum; rest?: string } {
  let part: Part | undefined;
  let rest: string | undefined;
  for (let cut = text.indexOf(' '); cut > 0; cut = text.indexOf(' ', cut + 1)) {
    const candidate = system.parts.get(text.slice(0, cut));
    if (!candidate) continue;
    part = candidate;
    rest = text.slice(cut + 1).trim();
    for (const module of modulesOf(candidate)) {
      const datum = module.scanData.get(rest);
      if (datum) return { part, datum, rest };
    }
  }
  return { part, rest };
}
