import type { Entry } from '../syntax/tree.ts';
import type { Module, OperatingRule, Pin, ScanDatum } from './parts.ts';
import { readOnly, readTest } from './read-values.ts';
import { entriesOf, Fields, overlaysOf, type Reader } from './reader.ts';

/** The keys of a module: pins, scan data, operating rules. */
export function readModule(reader: Reader, fields: Fields, variant?: string): Module {
  const powered = new Fields(fields.get('powered'));
  const pin = reader.text(powered.get('pin'));
  return {
    kind: 'module',
    ground: reader.text(fields.get('ground')),
    // Half of a 12 V supply where nothing is said (common practice, no source).
    powered: pin && { pin, aboveV: reader.quantity(powered.get('above'), 'voltage') ?? 6 },
    pins: new Map(entriesOf(fields.get('pins')).map(e => [e.key.text, readPin(e, reader, variant)])),
    scanData: new Map(entriesOf(fields.get('scan data')).map(e => [e.key.text, readDatum(e, reader)])),
    rules: readRules(reader, fields),
  };
}

function readPin(entry: Entry, reader: Reader, variant?: string): Pin {
  const overlay = overlaysOf(entry.value).find(o => o.key.text === variant);
  const fields = new Fields(entry.value, overlay?.value);
  const pullUp = new Fields(fields.get('pull-up'));
  const toV = reader.ranged(pullUp.get('to'), 'voltage');
  const throughOhms = reader.ranged(pullUp.get('through'), 'resistance');
  const output = reader.text(fields.get('output'))?.text as Pin['output'];
  return {
    id: entry.key.text,
    place: reader.place(entry.key.span),
    entry,
    only: readOnly(reader, fields),
    name: reader.text(fields.get('name'))?.text,
    draws: reader.ranged(fields.get('draws'), 'resistance'),
    pullUp: toV && throughOhms && { toV, throughOhms },
    pullDownOhms: reader.ranged(new Fields(fields.get('pull-down')).get('through'), 'resistance'),
    output,
    feed: reader.text(fields.get('feed')),
    onOhms: reader.ranged(fields.get('on resistance') ?? fields.get('through'), 'resistance'),
    offLeakageA: reader.ranged(fields.get('off leakage'), 'current'),
    supplyV: reader.ranged(fields.get('voltage'), 'voltage'),
  };
}

function readDatum(entry: Entry, reader: Reader): ScanDatum {
  const fields = new Fields(entry.value);
  const states = entriesOf(fields.get('states')).map(e => ({
    name: reader.ref(e.key),
    limit: reader.limit(e.value, 'voltage'),
  }));
  return {
    id: entry.key.text,
    place: reader.place(entry.key.span),
    entry,
    only: readOnly(reader, fields),
    from: reader.text(fields.get('from')),
    states,
    shows: reader.text(fields.get('shows'))?.text as ScanDatum['shows'],
    follows: reader.text(fields.get('follows')),
  };
}

function readRules(reader: Reader, fields: Fields): readonly OperatingRule[] {
  const node = fields.get('rules');
  if (node?.kind !== 'list') return [];
  return node.items.flatMap(item => {
    const rule = new Fields(item);
    const when = rule.entry('when');
    if (!when) return [];
    const outputs = entriesOf(rule.get('do')).map(e => ({
      pin: reader.ref(e.key),
      on: e.value.kind === 'scalar' && e.value.text === 'on',
    }));
    return [
      {
        only: readOnly(reader, rule),
        when: readTest(reader, when.value) ?? [],
        until: readTest(reader, rule.get('until')),
        outputs,
        ref: reader.ref(when.key),
      },
    ];
  });
}

/** Variants for which a pin has keys of its own. */
export function pinVariants(fields: Fields): readonly string[] {
  return entriesOf(fields.get('pins')).flatMap(pin => overlaysOf(pin.value).map(o => o.key.text));
}
