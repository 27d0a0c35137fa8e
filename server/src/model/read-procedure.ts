import type { Entry, Node } from '../syntax/tree.ts';
import {
  type Application,
  type Ending,
  type EndingData,
  type EndingKind,
  isRepair,
  type Procedure,
  type Start,
} from './procedure.ts';
import { readMeter } from './read-meter.ts';
import { declared } from './read-parts.ts';
import { readCautions, readSettings, readStep } from './read-step.ts';
import { readAllowances, readOnly, readTest } from './read-values.ts';
import { entriesOf, Fields, overlaysOf, Reader, remembered } from './reader.ts';

/** Reads a procedure file; steps and endings whose text is unchanged are not read again. */
export function readProcedure(root: Node, uri: string): Procedure {
  const reader = new Reader(uri);
  const fields = new Fields(root);
  const steps = entriesOf(fields.get('steps')).map(e => readStep(e, uri));
  const endings = entriesOf(fields.get('endings')).map(e => readEnding(e, uri));
  const value = {
    uri,
    id: reader.text(fields.get('procedure')),
    title: reader.text(fields.get('title'))?.text,
    appliesTo: entriesOf(fields.get('applies to')).map(e => readApplication(reader, e)),
    entries: readStarts(reader, fields.get('starts from')),
    tools: reader.refs(fields.get('tools')),
    meter: readMeter(reader, fields.get('meter')),
    cautions: readCautions(reader, fields.get('cautions')),
    start: reader.text(fields.get('start')),
    steps: firstOfEach(steps.map(s => s.value)),
    endings: firstOfEach(endings.map(e => e.value)),
    leavesOut: entriesOf(fields.get('leaves out')).map(({ key, value }) => ({
      name: reader.ref(key),
      because: reader.text(value)?.text ?? '',
    })),
    allow: readAllowances(reader, fields.get('allow')),
    keys: new Map(entriesOf(root).map(e => [e.key.text, reader.place(e.key.span)])),
  };
  return { ...value, problems: [...reader.problems, ...[...steps, ...endings].flatMap(r => r.problems)] };
}

/** Two entries of one name are a duplicate key, which the syntax stage reports; the first one counts. */
export function firstOfEach<T extends { id: string }>(things: readonly T[]): Map<string, T> {
  const found = new Map<string, T>();
  for (const thing of things) if (!found.has(thing.id)) found.set(thing.id, thing);
  return found;
}

function readApplication(reader: Reader, entry: Entry): Application {
  const { value } = entry;
  const all = value.kind === 'empty' || (value.kind === 'scalar' && value.text === 'all');
  return { file: reader.ref(entry.key), variants: all ? 'all' : reader.refs(value) };
}

function readStarts(reader: Reader, node: Node | undefined): readonly Start[] {
  if (node?.kind !== 'list') return [];
  return node.items.map(item => {
    const fields = new Fields(item);
    return {
      symptom: reader.text(fields.get('symptom')),
      code: reader.text(fields.get('code')),
      start: reader.text(fields.get('start')),
      set: readSettings(reader, fields.get('set')),
      when: readTest(reader, fields.get('when')),
      nature: natures.find(nature => nature === reader.text(fields.get('nature'))?.text),
      shows: reader.refs(fields.get('shows')),
    };
  });
}

const natures = ['hard', 'intermittent'] as const;

export const endingKinds = ['replace', 'mend', 'adjust', 'no fault', 'repaired', 'continue in', 'refer'] as const;

const readEnding = remembered((entry: Entry, reader: Reader): Ending => {
  const fields = new Fields(entry.value);
  return {
    ...declared(entry, reader),
    title: reader.text(fields.get('title'))?.text,
    only: readOnly(reader, fields),
    data: readEndingData(entry, reader, fields),
    byVariant: new Map(
      overlaysOf(entry.value).map(o => [o.key.text, readEndingData(entry, reader, new Fields(entry.value, o.value))]),
    ),
  };
});

function readEndingData(entry: Entry, reader: Reader, fields: Fields): EndingData {
  const kind = fields.firstOf<EndingKind>(endingKinds);
  const repairs = kind !== undefined && isRepair(kind.key);
  const blamed = kind?.key === 'refer' ? fields.get('suspect') : undefined;
  const text = reader.text(kind?.entry.value);
  return {
    kind: kind?.key ?? 'none',
    kindPlace: reader.place((kind?.entry ?? entry).key.span),
    items: reader.refs(repairs ? kind.entry.value : blamed),
    text: repairs ? undefined : text?.text,
    file: kind?.key === 'continue in' ? text : undefined,
    confirm: reader.text(fields.get('confirm')),
    set: readSettings(reader, fields.get('set')),
    connect: reader.refs(fields.get('connect')),
    refit: reader.refs(fields.get('refit')),
    cautions: readCautions(reader, fields.get('cautions')),
  };
}
