import type { Ranged } from '../../base/ranged.ts';
import { wireOhms } from '../../circuit/conductor/wire.ts';
import { fuseOhms } from '../../circuit/fuse-table.ts';
import type { Contact, PartData } from '../../model/parts.ts';
import { holds } from '../test.ts';
import { moduleElements } from './module-elements.ts';
import { sourceVolts } from './parts/battery.ts';
import { lampElements, runningMotor, tableElements } from './parts/curved-loads.ts';
import { junctionBend, suppressionDiode } from './parts/junctions.ts';
import { sensorElements } from './parts/sensors.ts';
import { transistorElements } from './parts/transistor.ts';
import { noElements, type PartElements, type Surroundings } from './surroundings.ts';
import { valueNow } from './value-now.ts';

/** The elements of one part at its own nodes. */
export function partElements(id: string, data: PartData, around: Surroundings): PartElements {
  const out = noElements();
  const [a, b] = data.terminals.slice(0, 2).map(t => around.node(t.text));
  const ends = a !== undefined && b !== undefined ? ([a, b] as const) : undefined;
  const between = (label: string, ohms: Ranged | undefined, first = a, second = b) => {
    if (first === undefined || second === undefined) return;
    if (ohms === undefined) out.joins.push([first, second]);
    else out.elements.push({ kind: 'resistance', id: label, a: first, b: second, ohms });
  };
  const known = (ohms: Ranged | undefined): PartElements => {
    if (ohms === undefined) return unknown(data, around);
    between(id, ohms);
    return out;
  };
  switch (data.kind) {
    case 'battery':
    case 'supply': {
      const volts = valueNow(sourceVolts(data), around);
      if (volts === undefined || a === undefined || b === undefined) return unknown(data, around);
      const internal = valueNow(data.internalOhms, around);
      const inside = internal ? around.fresh() : a;
      out.elements.push({ kind: 'voltage', id, plus: inside, minus: b, volts });
      if (internal) between(internalOf(id), internal, inside, a);
      return out;
    }
    case 'fuse':
    case 'breaker':
      between(id, data.ohms ?? (data.kind === 'fuse' ? fuseOhms(data.ratingA) : undefined));
      return out;
    case 'fusible link':
      between(
        id,
        data.ohms ?? (data.size && data.lengthM ? wireOhms(data.size, data.lengthM, around.temperatureC) : undefined),
      );
      return out;
    case 'resistor':
    case 'heater':
    case 'coil':
    case 'pickup':
    case 'inductor':
      return known(valueNow(data.ohms, around));
    case 'motor': {
      const winding = valueNow(data.ohms, around);
      const isStalled = data.stalledWhen && holds(data.stalledWhen, name => around.stateOf(name)) === true;
      if (!data.running || isStalled || !winding || !ends) return known(winding);
      return runningMotor(id, data.running, winding, ends, around.fresh) ?? unknown(data, around);
    }
    case 'lamp':
      return (ends && lampElements(id, data, ends, around.fresh)) ?? unknown(data, around);
    case 'two-terminal':
      return (ends && tableElements(id, data, ends)) ?? unknown(data, around);
    case 'diode':
    case 'led':
    case 'zener': {
      const bend = ends && junctionBend(id, data, ...ends);
      if (!bend) return unknown(data, around);
      out.bends.push(bend);
      return out;
    }
    case 'thermistor':
    case 'rtd':
    case 'thermocouple':
    case 'potentiometer':
    case 'ratiometric sensor':
    case 'hall sensor':
    case 'current loop':
      return sensorElements(id, data, around) ?? unknown(data, around);
    case 'transistor':
      return transistorElements(id, data, around);
    case 'capacitor':
      // Nothing flows through it once it is charged.
      return out;
    case 'switch':
      for (const contact of data.contacts) {
        if (isClosed(id, contact, around)) {
          const label =
            data.contacts.length > 1 ? `${id} contact ${contact.a.text}-${contact.b.text}` : `${id} contact`;
          between(label, data.contactOhms, around.node(contact.a.text), around.node(contact.b.text));
        }
      }
      return out;
    case 'coded switches': {
      const held = around.stateOf(id)[0] ?? 'idle';
      if (data.idleOhms) between(`${id} idle`, data.idleOhms);
      const button = data.buttons.get(held);
      if (button?.is === 'short') between(id, undefined);
      else if (button && button.is !== 'open') between(`${id} ${held}`, button.is);
      return out;
    }
    case 'relay': {
      if (!data.coilOhms) return unknown(data, around);
      between(`${id} coil`, data.coilOhms);
      const coil = data.terminals.slice(0, 2).map(t => t.text);
      const [anode, cathode] = (data.suppressionDiode ?? []).map(t =>
        coil.includes(t.text) ? around.node(t.text) : undefined,
      );
      if (anode !== undefined && cathode !== undefined) out.bends.push(suppressionDiode(id, anode, cathode));
      if (data.suppressionOhms) between(`${id} suppression resistor`, data.suppressionOhms);
      const [, , common, open, closed] = data.terminals.map(t => around.node(t.text));
      const on = around.isOn(id);
      if (a !== undefined && b !== undefined && data.pullInV !== undefined) {
        out.senses.push({ name: id, red: a, black: b, aboveV: data.pullInV, dropV: data.dropOutV, eitherWay: true });
      }
      between(`${id} contact`, data.contactOhms, common, on ? open : closed);
      return out;
    }
    case 'module':
      return moduleElements(id, data, around);
    case 'item':
      return out;
    default:
      return unknown(data, around);
  }
}

/** The element that stands for the inside of a supply, from its source to its terminal. */
export function internalOf(supply: string): string {
  return `${supply} internal resistance`;
}

function unknown(data: PartData, around: Surroundings): PartElements {
  const nodes = data.terminals.flatMap(t => around.node(t.text) ?? []);
  return { ...noElements(), unknown: nodes };
}

function isClosed(id: string, contact: Contact, around: Surroundings): boolean {
  if ('test' in contact.closed) return holds(contact.closed.test, name => around.stateOf(name)) === true;
  const now = around.stateOf(id)[0];
  return contact.closed.positions.some(p => p.text === now);
}
