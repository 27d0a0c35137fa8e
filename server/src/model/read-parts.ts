import { parseWireSize } from '../base/quantity/wire-size.ts';
import type { Entry, Node } from '../syntax/tree.ts';
import type { Declared, Ref, Value } from './common.ts';
import type { CodedButton, Contact, Part, PartData, PartKind } from './parts.ts';
import { aboveZero, impossible, loadOhms, loadRange } from './possible.ts';
import { readSupply } from './read-battery.ts';
import { readJunction, readLamp, readMotor, readSuppressionDiode, readTable, readTransistor } from './read-loads.ts';
import { pinVariants, readModule } from './read-module.ts';
import { readSensor } from './read-sensors.ts';
import { readMinutes, readOnly, readTest, readValue } from './read-values.ts';
import { entriesOf, Fields, overlaysOf, type Reader, remembered } from './reader.ts';

/** One entry of `parts`. */
export const readPart = remembered((entry: Entry, reader: Reader): Part => {
  const fields = new Fields(entry.value);
  const overlays = new Map(overlaysOf(entry.value).map(o => [o.key.text, o.value]));
  const variants = new Set([...overlays.keys(), ...pinVariants(fields)]);
  const inVariant = (name: string) => readData(entry, reader, new Fields(entry.value, overlays.get(name)), name);
  return {
    ...declared(entry, reader),
    title: reader.text(fields.get('title'))?.text,
    only: readOnly(reader, fields),
    data: readData(entry, reader, fields),
    byVariant: new Map([...variants].map(name => [name, inVariant(name)])),
  };
});

export function declared(entry: Entry, reader: Reader): Declared {
  return { id: entry.key.text, place: reader.place(entry.key.span), entry };
}

const defaultTerminals: Partial<Record<PartKind, readonly string[]>> = {
  battery: ['+', '-'],
  supply: ['+', '-'],
  relay: ['85', '86', '30', '87', '87a'],
  diode: ['A', 'K'],
  led: ['A', 'K'],
  zener: ['A', 'K'],
  transistor: ['B', 'C', 'E'],
  potentiometer: ['1', '2', '3'],
  'ratiometric sensor': ['supply', 'signal', 'ground'],
  'hall sensor': ['supply', 'signal', 'ground'],
  item: [],
};

function readData(entry: Entry, reader: Reader, fields: Fields, variant?: string): PartData {
  const written = fields.get('kind');
  const kind = (written?.kind === 'scalar' ? written.text : 'unknown') as PartKind;
  const place = reader.place(entry.key.span);
  const own = reader.refs(fields.get('terminals'));
  reportTwins(reader, own, text => `\`${text}\` is a terminal of \`${entry.key.text}\` already`);
  const usual = defaultTerminals[kind] ?? ['1', '2'];
  const common = {
    terminals: own.length > 0 ? own : usual.map(text => ({ text, place })),
    studs: reader.refs(fields.get('studs')),
    hazards: reader.refs(fields.get('hazard')),
    accessMin: readMinutes(reader, fields.get('access')),
  };
  return { ...common, ...readKind(kind, entry, reader, fields, common.terminals, variant) } as PartData;
}

/** What the keys of one kind say; a kind that the language does not have says nothing. */
function readKind(
  kind: PartKind,
  entry: Entry,
  reader: Reader,
  fields: Fields,
  terminals: readonly Ref[],
  variant?: string,
): object {
  switch (kind) {
    case 'battery':
    case 'supply':
      return readSupply(kind, entry, reader, fields);
    case 'fuse':
    case 'breaker': {
      const rating = fields.get('rating');
      const ratingA = aboveZero(reader, rating, reader.quantity(rating, 'current'), `rating of a ${kind}`, '10 A');
      return { kind, ratingA, ohms: reader.ranged(fields.get('resistance'), 'resistance') };
    }
    case 'fusible link': {
      const size = reader.parsed(fields.get('size'), parseWireSize);
      const length = fields.get('length');
      const metres = reader.quantity(length, 'length');
      const lengthM = aboveZero(reader, length, metres, 'length of a fusible link', '0.2 m');
      return { kind, size, lengthM, ohms: reader.ranged(fields.get('resistance'), 'resistance') };
    }
    case 'resistor':
    case 'heater':
    case 'coil':
    case 'pickup':
    case 'inductor':
      return { kind, ohms: readOhms(kind, reader, fields) };
    case 'lamp':
      return readLamp(reader, fields);
    case 'motor':
      return readMotor(reader, fields);
    case 'diode':
    case 'led':
    case 'zener':
      return { kind, ...readJunction(reader, fields) };
    case 'transistor':
      return readTransistor(reader, fields);
    case 'two-terminal':
      return readTable(reader, { text: entry.key.text, place: reader.place(entry.key.span) }, fields.get('table'));
    case 'capacitor': {
      const written = fields.get('capacitance');
      aboveZero(reader, written, reader.ranged(written, 'capacitance'), 'capacitance of a capacitor', '100 µF');
      return { kind };
    }
    case 'thermistor':
    case 'rtd':
    case 'thermocouple':
    case 'potentiometer':
    case 'ratiometric sensor':
    case 'hall sensor':
    case 'current loop':
      return readSensor(kind, reader, fields);
    case 'switch':
      return readSwitch(entry, reader, fields, terminals);
    case 'coded switches': {
      const buttons = entriesOf(fields.get('buttons')).flatMap(e => readButton(e, reader));
      const idleOhms = reader.ranged(fields.get('idle'), 'resistance');
      return { kind, idleOhms, buttons: new Map(buttons.map(b => [b.id, b])) };
    }
    case 'relay':
      return readRelay(entry, reader, fields);
    case 'module': {
      const module = readModule(reader, fields, variant);
      return { ...module, terminals: [...module.pins.values()].map(p => ({ text: p.id, place: p.place })) };
    }
    case 'item': {
      const fails = entriesOf(fields.get('fails')).map(e => ({ ...declared(e, reader), title: scalarText(e.value) }));
      return { kind, fails: new Map(fails.map(f => [f.id, f])) };
    }
    default:
      return { kind };
  }
}

/** A resistor may have nothing, as a link between two points; what works by its current may not. */
function readOhms(kind: PartKind, reader: Reader, fields: Fields): Value | undefined {
  const written = readValue(reader, fields.get('resistance'), 'resistance');
  return kind === 'resistor' ? written : loadOhms(reader, `a ${kind}`, written);
}

function readSwitch(entry: Entry, reader: Reader, fields: Fields, two: readonly Ref[]): object {
  const positions = reader.refs(fields.get('positions'));
  reportTwins(reader, positions, text => `\`${text}\` is a position of \`${entry.key.text}\` already`);
  const contacts = entriesOf(fields.get('contacts')).flatMap(e => readContact(e, reader));
  const closed = fields.get('closed');
  if (closed && two.length >= 2) contacts.push({ a: two[0]!, b: two[1]!, closed: readClosed(reader, closed) });
  const named = entriesOf(fields.get('contacts')).length > 0 && fields.get('terminals') === undefined;
  const terminals = named ? distinctTerminals(contacts) : two;
  const place = reader.place(entry.key.span);
  const contactOhms = reader.ranged(fields.get('contact resistance'), 'resistance');
  const ownPlace =
    terminals.length > 0
      ? terminals
      : [
          { text: '1', place },
          { text: '2', place },
        ];
  return { kind: 'switch', positions, contacts, contactOhms, terminals: ownPlace };
}

function readContact(entry: Entry, reader: Reader): Contact[] {
  const { key } = entry;
  const [a, b] = key.text.split(' to ');
  if (!a?.trim() || !b?.trim() || a.trim() === b.trim()) {
    reader.report('unreadable-contact', reader.place(key.span), `\`${key.text}\` does not name two terminals`, {
      detail: 'A contact is named by the two terminals that it joins.',
      help: 'Write it as `C to F`.',
    });
    return [];
  }
  const start = key.text.indexOf(' to ') + 4;
  return [
    {
      a: { text: a.trim(), place: reader.within(key, 0, a.length) },
      b: { text: b.trim(), place: reader.within(key, start, key.text.length) },
      closed: readClosed(reader, entry.value),
    },
  ];
}

function readClosed(reader: Reader, node: Node): Contact['closed'] {
  if (node.kind === 'map') return { test: readTest(reader, node) ?? [] };
  if (node.kind === 'list' && node.items.some(i => i.kind === 'map')) return { test: readTest(reader, node) ?? [] };
  return { positions: reader.refs(node) };
}

function distinctTerminals(contacts: readonly Contact[]): readonly Ref[] {
  const found = new Map<string, Ref>();
  for (const t of contacts.flatMap(c => [c.a, c.b])) if (!found.has(t.text)) found.set(t.text, t);
  return [...found.values()];
}

function readButton(entry: Entry, reader: Reader): CodedButton[] {
  const text = scalarText(entry.value);
  if (text === 'short' || text === 'open') return [{ ...declared(entry, reader), is: text }];
  const is = reader.ranged(entry.value, 'resistance');
  return is ? [{ ...declared(entry, reader), is }] : [];
}

function readRelay(entry: Entry, reader: Reader, fields: Fields): object {
  const suppression = new Fields(fields.get('suppression'));
  const [pullIn, dropOut] = [fields.get('pull-in'), fields.get('drop-out')];
  const pullInV = aboveZero(reader, pullIn, reader.quantity(pullIn, 'voltage'), 'pull-in of a relay', '8 V');
  const dropOutV = aboveZero(reader, dropOut, reader.quantity(dropOut, 'voltage'), 'drop-out of a relay', '1.5 V');
  const isUpsideDown = pullInV !== undefined && dropOutV !== undefined && dropOutV > pullInV;
  if (isUpsideDown) {
    const why = 'A relay that is pulled in is let go by a lower voltage than the one that pulls it in.';
    const message = `\`${entry.key.text}\` cannot drop out above its pull-in`;
    impossible(reader, dropOut, message, why, 'Correct one of the two; perhaps they are the wrong way round.');
  }
  return {
    kind: 'relay',
    coilOhms: loadRange(reader, 'a coil', fields.get('coil')),
    pullInV,
    dropOutV: isUpsideDown ? undefined : dropOutV,
    contactOhms: reader.ranged(fields.get('contact resistance'), 'resistance'),
    suppressionOhms: loadRange(reader, 'a suppression resistor', suppression.get('resistor')),
    suppressionDiode: readSuppressionDiode(reader, suppression.get('diode')),
  };
}

/** Tells the first name that stands a second time in a list of names. */
export function reportTwins(reader: Reader, refs: readonly Ref[], message: (text: string) => string): void {
  const twin = refs.find(({ text }, i) => refs.findIndex(other => other.text === text) < i);
  if (!twin) return;
  reader.report('duplicate-name', twin.place, message(twin.text), {
    detail: 'Where this name stands, nobody can tell which one is meant.',
    help: 'Give one of them another name, or delete it.',
  });
}

export function scalarText(node: Node): string | undefined {
  return node.kind === 'scalar' ? node.text : undefined;
}
