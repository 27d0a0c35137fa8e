import type { Entry, Node } from '../syntax/tree.ts';
import { declared } from './read-parts.ts';
import { entriesOf, Fields, Reader, remembered } from './reader.ts';
import type { Samples, SampleWalk } from './samples.ts';

/** Reads a samples file; walks whose text is unchanged are not read again. */
export function readSamples(root: Node, uri: string): Samples {
  const reader = new Reader(uri);
  const fields = new Fields(root);
  const walks = entriesOf(fields.get('walks')).map(e => readWalk(e, uri));
  const of = reader.text(fields.get('samples of'));
  return { uri, of, walks: walks.map(w => w.value), problems: [...reader.problems, ...walks.flatMap(w => w.problems)] };
}

const readWalk = remembered((entry: Entry, reader: Reader): SampleWalk => {
  const fields = new Fields(entry.value);
  const readings = entriesOf(fields.get('readings')).flatMap(e => {
    const reading = reader.text(e.value);
    return reading ? [{ step: reader.ref(e.key), reading }] : [];
  });
  return {
    ...declared(entry, reader),
    variant: reader.text(fields.get('variant')),
    startsFrom: reader.text(fields.get('starts from')),
    readings: new Map(readings.map(r => [r.step.text, r])),
    endsAt: reader.text(fields.get('ends at')),
    keys: new Map(entriesOf(entry.value).map(e => [e.key.text, reader.place(e.key.span)])),
  };
});
