import type { System } from '../../model/system.ts';
import { type Wiring, wire } from '../lower/wiring.ts';
import { contactFaults } from './contacts.ts';
import { electronicFaults } from './electronics.ts';
import type { Derived, Fault } from './fault.ts';
import { itemFaults } from './items.ts';
import { loadFaults } from './loads.ts';
import { moduleFaults } from './modules.ts';
import { withNotes } from './notes.ts';
import { type PartOf, WiredPart } from './part.ts';
import { protectionFaults } from './protection.ts';
import { relayFaults } from './relays.ts';
import { supplyFaults } from './supplies.ts';
import { rubbed } from './surroundings.ts';
import { codedFaults, switchFaults } from './switches.ts';
import { wireFaults } from './wires.ts';

/**
 * Every fault of a system in one variant: parts, then wires, then what makes contact, each in the order of the file, with the
 * edits of `faults:`. Excluded ones are in the list, with the reason. Ids are unique. Equal questions get the same list.
 */
export function faultsOf(system: System, variant: string): readonly Fault[] {
  const list = listOf(system, variant);
  list.faults ??= withNotes(list.derived, list.wiring);
  return list.faults;
}

/** The list as it follows from parts and wires alone. */
export function derivedFaults(system: System, variant: string): readonly Derived[] {
  return listOf(system, variant).derived;
}

interface List {
  readonly wiring: Wiring;
  readonly derived: readonly Derived[];
  faults?: readonly Fault[];
}

const lists = new WeakMap<System, Map<string, List>>();

function listOf(system: System, variant: string): List {
  const known = lists.get(system) ?? new Map<string, List>();
  lists.set(system, known);
  const before = known.get(variant);
  if (before) return before;
  const wiring = wire(system, variant);
  const fresh = { wiring, derived: derive(wiring) };
  known.set(variant, fresh);
  return fresh;
}

function derive(wiring: Wiring): readonly Derived[] {
  const parts = wiring.parts.flatMap(({ part, data }) => partFaults(new WiredPart(wiring, part, data)));
  const all = [...parts, ...wireFaults(wiring, rubbed(wiring)), ...contactFaults(wiring)];
  const taken = new Set<string>();
  // Things of one name are told by a rule of their own; their faults are told once.
  return all.filter(({ id }) => !taken.has(id) && taken.add(id));
}

function partFaults(part: WiredPart): readonly Derived[] {
  switch (part.data.kind) {
    case 'battery':
    case 'supply':
      return supplyFaults(part as PartOf<'battery'>);
    case 'fuse':
    case 'breaker':
    case 'fusible link':
      return protectionFaults(part as PartOf<'fuse'>);
    case 'switch':
      return switchFaults(part as PartOf<'switch'>);
    case 'coded switches':
      return codedFaults(part as PartOf<'coded switches'>);
    case 'relay':
      return relayFaults(part as PartOf<'relay'>);
    case 'module':
      return moduleFaults(part as PartOf<'module'>);
    case 'item':
      return itemFaults(part as PartOf<'item'>);
    case 'resistor':
    case 'heater':
    case 'coil':
    case 'motor':
    case 'pickup':
    case 'inductor':
    case 'lamp':
      return loadFaults(part as PartOf<'resistor'>);
    default:
      return electronicFaults(part);
  }
}
