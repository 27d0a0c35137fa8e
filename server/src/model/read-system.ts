import type { Entry, Node } from '../syntax/tree.ts';
import { type Declared, STANDARD } from './common.ts';
import { readCondition } from './read-condition.ts';
import { declared, readPart, scalarText } from './read-parts.ts';
import { firstOfEach } from './read-procedure.ts';
import { readMeterPlace, readSettings } from './read-step.ts';
import { readAllowances, readMinutes, readOnly } from './read-values.ts';
import { readWire } from './read-wire.ts';
import { entriesOf, Fields, Reader, remembered } from './reader.ts';
import type { Connector, FaultNote, Ground, Specification, SpecificationRow, System } from './system.ts';

/** Reads one system file without the files that it includes; entries whose text is unchanged are not read again. */
export function readSystem(root: Node, uri: string): System {
  const reader = new Reader(uri);
  const fields = new Fields(root);
  const each = <T>(key: string, read: (entry: Entry, uri: string) => { value: T; problems: readonly unknown[] }) =>
    entriesOf(fields.get(key)).map(e => read(e, uri));
  const conditions = each('conditions', readCondition);
  const parts = each('parts', readPart);
  const connectors = each('connectors', readConnector);
  const grounds = each('grounds', readGround);
  const wires = wireEntries(fields.get('wires')).map(e => readWireEntry(e, uri));
  const specifications = each('specifications', readSpecification);
  const faults = each('faults', readFaultNote);
  const variants = entriesOf(fields.get('variants')).map(e => titled(e, reader));
  const splices = entriesOf(fields.get('splices')).map(e => titled(e, reader));
  const value = {
    uri,
    id: reader.text(fields.get('system')),
    title: reader.text(fields.get('title'))?.text,
    includes: reader.refs(fields.get('includes')),
    variants: variants.length > 0 ? variants.map(v => v.id) : [STANDARD],
    variantDecls: firstOfEach(variants),
    conditions: firstOfEach(conditions.map(c => c.value)),
    parts: firstOfEach(parts.map(p => p.value)),
    connectors: firstOfEach(connectors.map(c => c.value)),
    grounds: firstOfEach(grounds.map(g => g.value)),
    splices: firstOfEach(splices),
    wires: wires.map(w => w.value),
    specifications: firstOfEach(specifications.map(s => s.value)),
    faultNotes: faults.map(f => f.value),
    allow: readAllowances(reader, fields.get('allow')),
    temperatureC: reader.quantity(fields.get('temperature'), 'temperature') ?? 20,
  };
  const read = [conditions, parts, connectors, grounds, wires, specifications, faults].flat();
  return { ...value, problems: [...reader.problems, ...read.flatMap(r => r.problems as System['problems'])] };
}

function titled(entry: Entry, reader: Reader): Declared {
  return { ...declared(entry, reader), title: scalarText(entry.value) };
}

/** Each wire is a list item of one entry, so that a wire may stand twice with different `only`. */
function wireEntries(node: Node | undefined): readonly Entry[] {
  if (node?.kind === 'map') return node.entries;
  return node?.kind === 'list' ? node.items.flatMap(item => entriesOf(item)) : [];
}

const readWireEntry = remembered(readWire);

const readConnector = remembered((entry: Entry, reader: Reader): Connector => {
  const fields = new Fields(entry.value);
  return {
    ...declared(entry, reader),
    title: reader.text(fields.get('title'))?.text,
    only: readOnly(reader, fields),
    cavities: reader.refs(fields.get('cavities')),
    contactOhms: reader.ranged(fields.get('contact resistance'), 'resistance'),
    accessMin: readMinutes(reader, fields.get('access')),
    hazards: reader.refs(fields.get('hazard')),
  };
});

const readGround = remembered((entry: Entry, reader: Reader): Ground => {
  const fields = new Fields(entry.value);
  return {
    ...declared(entry, reader),
    title: scalarText(entry.value) ?? reader.text(fields.get('title'))?.text,
    only: readOnly(reader, fields),
    contactOhms: reader.ranged(fields.get('contact resistance'), 'resistance'),
  };
});

const readSpecification = remembered((entry: Entry, reader: Reader): Specification => {
  const fields = new Fields(entry.value);
  const rows = entriesOf(fields.get('rows')).map(e => readRow(e, reader));
  return {
    ...declared(entry, reader),
    title: reader.text(fields.get('title'))?.text,
    only: readOnly(reader, fields),
    meter: readMeterPlace(reader, fields.entry('measure') ?? entry, fields),
    set: readSettings(reader, fields.get('set')),
    disconnect: reader.refs(fields.get('disconnect')),
    remove: reader.refs(fields.get('remove')),
    rows: firstOfEach(rows),
  };
});

function readRow(entry: Entry, reader: Reader): SpecificationRow {
  const fields = new Fields(entry.value);
  const node = entry.value.kind === 'scalar' ? entry.value : fields.get('limits');
  return {
    ...declared(entry, reader),
    only: readOnly(reader, fields),
    set: readSettings(reader, fields.get('set')),
    limits: reader.specified(node),
  };
}

const readFaultNote = remembered((entry: Entry, reader: Reader): FaultNote => {
  const fields = new Fields(entry.value);
  const weight = (key: 'likelihood' | 'severity') =>
    notBelow(reader, fields.get(key), reader.quantity(fields.get(key), 'number'), 0, 'Write 0 or more.');
  const drift = reader.quantity(fields.get('drift'), 'ratio');
  return {
    ...declared(entry, reader),
    likelihood: weight('likelihood'),
    severity: weight('severity'),
    excluded: reader.text(fields.get('excluded'))?.text,
    added: reader.text(fields.get('added'))?.text,
    ohms: reader.quantity(fields.get('resistance'), 'resistance'),
    ratio: notBelow(reader, fields.get('drift'), drift, -1, 'Write -100 % or more.'),
    volts: reader.quantity(fields.get('voltage'), 'voltage'),
  };
});

/** The value, or a problem and nothing where it is lower than can be. */
function notBelow(reader: Reader, node: Node | undefined, value: number | undefined, least: number, help: string) {
  if (node?.kind !== 'scalar' || value === undefined || value >= least) return value;
  reader.report('below-zero', reader.place(node.span), `\`${node.text}\` is less than there can be`, {
    detail: least === 0 ? '0 says that it never happens or does not matter.' : '-100 % leaves nothing of the value.',
    help,
  });
  return undefined;
}
