import type { Dimension } from '../base/quantity/dimension.ts';
import { parseLimit } from '../base/quantity/limit.ts';
import type { Entry, MapNode, Node } from '../syntax/tree.ts';
import type { Ref } from './common.ts';
import { readLead } from './lead.ts';
import { answersOf } from './meter-answers.ts';
import { declared } from './read-parts.ts';
import { readMinutes, readOnly, readTest } from './read-values.ts';
import { entriesOf, Fields, overlaysOf, type Reader, remembered } from './reader.ts';
import type {
  Action,
  Branch,
  Caution,
  Match,
  MeasureKind,
  MeterPlace,
  Setting,
  SignalWord,
  Step,
  StepData,
} from './step.ts';

/** One entry of `steps`. */
export const readStep = remembered((entry: Entry, reader: Reader): Step => {
  const fields = new Fields(entry.value);
  return {
    ...declared(entry, reader),
    title: reader.text(fields.get('title'))?.text,
    only: readOnly(reader, fields),
    data: readData(entry, reader, fields),
    byVariant: new Map(
      overlaysOf(entry.value).map(o => [o.key.text, readData(entry, reader, new Fields(entry.value, o.value))]),
    ),
  };
});

export const verbs = ['inspect', 'operate', 'measure', 'read', 'record', 'ask', 'do'] as const;

/** What each kind of measurement reads; a test lamp shows lit or dark and no number. */
export const dimensionOf: Record<MeasureKind, Dimension | undefined> = {
  voltage: 'voltage',
  'voltage drop': 'voltage',
  resistance: 'resistance',
  continuity: 'resistance',
  current: 'current',
  'test lamp': undefined,
};

function readData(entry: Entry, reader: Reader, fields: Fields): StepData {
  const verb = fields.firstOf(verbs);
  const action = verb ? readAction(verb.key, verb.entry, reader, fields) : ({ verb: 'none' } as const);
  const then = fields.entry('then');
  return {
    id: entry.key.text,
    title: reader.text(fields.get('title'))?.text,
    minutes: readMinutes(reader, fields.get('minutes')),
    cautions: readCautions(reader, fields.get('cautions')),
    tools: reader.refs(fields.get('tools')),
    needs: readTest(reader, fields.get('needs')),
    set: readSettings(reader, fields.get('set')),
    disconnect: reader.refs(fields.get('disconnect')),
    connect: reader.refs(fields.get('connect')),
    remove: reader.refs(fields.get('remove')),
    refit: reader.refs(fields.get('refit')),
    provoke: entriesOf(fields.get('provoke')).map(e => ({ how: reader.ref(e.key), what: reader.refs(e.value) })),
    action,
    actionPlace: reader.place((verb?.entry ?? entry).key.span),
    branches: readBranches(reader, then?.value, action),
    thenPlace: then && reader.place(then.key.span),
  };
}

function readAction(verb: (typeof verbs)[number], entry: Entry, reader: Reader, fields: Fields): Action {
  switch (verb) {
    case 'inspect':
      return { verb, items: reader.refs(entry.value) };
    case 'operate':
    case 'ask':
    case 'do':
      return { verb, text: reader.text(entry.value)?.text ?? '' };
    case 'measure': {
      const at = readMeterPlace(reader, entry, fields);
      const limits = reader.specified(fields.get('limits'), dimensionOf[at.measure]);
      return { verb, ...at, limits, specification: reader.text(fields.get('specification')) };
    }
    case 'read': {
      const expect = fields.get('expect');
      return {
        verb,
        ...readDatumName(reader, entry.value),
        limits: reader.specified(fields.get('limits')),
        expect: expect && expect.kind !== 'empty' ? reader.refs(expect) : undefined,
      };
    }
    case 'record':
      return readRecord(reader, entry.value);
  }
}

/** `measure`, `red`, `black`, `around` of a step or a specification. */
export function readMeterPlace(reader: Reader, entry: Entry, fields: Fields): MeterPlace {
  const text = entry.value.kind === 'scalar' ? entry.value.text : '';
  const measure = text in dimensionOf ? (text as MeasureKind) : 'voltage';
  const leads: { red?: MeterPlace['red']; black?: MeterPlace['black'] } = {};
  for (const name of ['red', 'black'] as const) {
    const node = fields.get(name);
    if (node?.kind === 'scalar') leads[name] = readLead(reader, node);
  }
  return { measure, measurePlace: reader.place(entry.key.span), ...leads, around: reader.text(fields.get('around')) };
}

/** `A1 keypad`: the module's name, then the datum's; both may hold blanks, so the split is settled by the names known later. */
function readDatumName(reader: Reader, node: Node): { module?: Ref; datum?: Ref } {
  if (node.kind !== 'scalar') return {};
  const cut = node.text.indexOf(' ');
  if (cut < 0) return { datum: reader.ref(node) };
  return {
    module: { text: node.text.slice(0, cut), place: reader.within(node, 0, cut) },
    datum: { text: node.text.slice(cut + 1).trim(), place: reader.within(node, cut + 1, node.text.length) },
  };
}

function readRecord(reader: Reader, node: Node): Action {
  const fields = new Fields(node);
  return {
    verb: 'record',
    channels: reader.refs(fields.get('channels')),
    seconds: reader.quantity(fields.get('for'), 'time'),
    withinS: reader.quantity(fields.get('within'), 'time'),
    events: entriesOf(fields.get('event')).flatMap(e => {
      const what = reader.text(e.value);
      return what ? [{ channel: reader.ref(e.key), what }] : [];
    }),
  };
}

function readBranches(reader: Reader, then: Node | undefined, action: Action): readonly Branch[] {
  if (then?.kind === 'scalar') {
    const target = reader.ref(then);
    return [{ key: target, match: { on: 'always' }, target, shows: [] }];
  }
  return entriesOf(then).map(e => readBranch(reader, e, action));
}

function readBranch(reader: Reader, entry: Entry, action: Action): Branch {
  const fields = new Fields(entry.value);
  return {
    key: reader.ref(entry.key),
    match: readMatch(reader, entry, action),
    target: reader.text(entry.value) ?? reader.text(fields.get('go to')),
    when: readTest(reader, fields.get('when')),
    shows: reader.refs(fields.get('shows')),
  };
}

/** A reading is matched by its range; everything else by the answer as written. */
function readMatch(reader: Reader, entry: Entry, action: Action): Match {
  const { text } = entry.key;
  if (text === 'otherwise') return { on: 'otherwise' };
  const numeric = action.verb === 'measure' ? action.measure !== 'test lamp' : action.verb === 'read' && !action.expect;
  if (text === 'within' && (numeric || action.verb === 'read')) return { on: 'within' };
  if (!numeric) return { on: 'answer' };
  if (action.verb === 'measure' && answersOf(action.measure).includes(text)) return { on: 'answer' };
  if (text === 'below' || text === 'above') return { on: text };
  const dimension = action.verb === 'measure' ? dimensionOf[action.measure] : stated(action);
  if (action.verb === 'read' && !parseLimit(text, dimension).value) return { on: 'answer' };
  const limit = reader.parsed(entry.key, key => parseLimit(key, dimension));
  return limit ? { on: 'limit', limit } : { on: 'answer' };
}

function stated(action: Action): Dimension | undefined {
  if (action.verb !== 'read' || !action.limits) return undefined;
  // The circuit gives the voltage that the datum is decoded from.
  return action.limits.limit?.dimension ?? 'voltage';
}

const signalWords: readonly string[] = ['danger', 'warning', 'caution', 'notice'];

export function readCautions(reader: Reader, node: Node | undefined): readonly Caution[] {
  if (node?.kind !== 'list') return [];
  return node.items.flatMap(item => (item.kind === 'map' ? readCaution(reader, item) : []));
}

function readCaution(reader: Reader, item: MapNode): Caution[] {
  const only = readOnly(reader, new Fields(item));
  return item.entries.flatMap(e => {
    if (!signalWords.includes(e.key.text) || e.value.kind !== 'scalar') return [];
    return [{ word: e.key.text as SignalWord, text: e.value.text, place: reader.place(e.key.span), only }];
  });
}

export function readSettings(reader: Reader, node: Node | undefined): readonly Setting[] {
  return entriesOf(node).flatMap(e => {
    const state = reader.text(e.value);
    return state ? [{ name: reader.ref(e.key), state }] : [];
  });
}
