import type { Dimension } from '../base/quantity/dimension.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import type { Entry } from '../syntax/tree.ts';
import { declared, reportTwins } from './read-parts.ts';
import { readTest } from './read-values.ts';
import { entriesOf, Fields, type Reader, remembered } from './reader.ts';
import type { Condition, ConditionNumber } from './system.ts';

/** One entry of `conditions`: its states, or the numbers between which it can be. */
export const readCondition = remembered((entry: Entry, reader: Reader): Condition => {
  const fields = new Fields(entry.value);
  const states = reader.refs(entry.value.kind === 'map' ? fields.get('states') : entry.value);
  reportTwins(reader, states, text => `\`${text}\` is a state of \`${entry.key.text}\` already`);
  const needs = entriesOf(fields.get('needs')).flatMap(e => {
    const test = readTest(reader, e.value);
    return test ? [[e.key.text, test] as const] : [];
  });
  return {
    ...declared(entry, reader),
    title: reader.text(fields.get('title'))?.text,
    states,
    number: readNumber(entry.key.text, reader, fields),
    needs: new Map(needs),
  };
});

function readNumber(id: string, reader: Reader, fields: Fields): ConditionNumber | undefined {
  const quantity = (key: string, dimension?: Dimension) =>
    reader.parsed(fields.get(key), text => parseQuantity(text, dimension));
  const from = quantity('from');
  const to = from && quantity('to', from.dimension);
  const rest = from && quantity('rest', from.dimension);
  const atRest = reader.text(fields.get(rest ? 'rest' : 'from'));
  if (!from || !to || !atRest) return undefined;
  const { dimension } = from;
  const [low, high] = from.value <= to.value ? [from.value, to.value] : [to.value, from.value];
  const tell = (rule: string, key: string, message: string, detail: string, help: string) => {
    const node = fields.get(key);
    if (node) reader.report(rule, reader.place(node.span), message, { detail, help });
  };
  const why = 'What follows a condition goes from one end to the other with it.';
  if (from.value > to.value) {
    tell('inverted-range', 'from', `\`${id}\` begins with its higher end`, why, 'Write the lower number under `from`.');
  } else if (from.value === to.value) {
    tell(
      'empty-range',
      'to',
      `Both ends of \`${id}\` are the same number`,
      why,
      'Write its lowest and its highest number.',
    );
  } else if (rest && (rest.value < low || rest.value > high)) {
    const detail = 'The number at rest is one that the condition can have.';
    tell(
      'nominal-outside-range',
      'rest',
      `\`${id}\` rests beyond its ends`,
      detail,
      'Write a number between `from` and `to`.',
    );
  }
  return { from: low, to: high, dimension, rest: atRest.text };
}
