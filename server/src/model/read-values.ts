import type { Dimension } from '../base/quantity/dimension.ts';
import type { Node } from '../syntax/tree.ts';
import type { Allowance, Ref, Test, TestPart, Value, ValueCase } from './common.ts';
import { entriesOf, Fields, type Reader } from './reader.ts';

/** `{ key: run, seat: [occupied] }`, or a list of such maps of which one must hold. */
export function readTest(reader: Reader, node: Node | undefined): Test | undefined {
  if (node?.kind === 'map') return [testParts(reader, node)];
  if (node?.kind !== 'list') return undefined;
  return node.items.flatMap(item => (item.kind === 'map' ? [testParts(reader, item)] : []));
}

function testParts(reader: Reader, node: Node): readonly TestPart[] {
  return entriesOf(node).map(e => ({ name: reader.ref(e.key), states: reader.refs(e.value) }));
}

/** A quantity with its tolerance, or a list of `{ when, is }`. */
export function readValue(reader: Reader, node: Node | undefined, dimension: Dimension): Value | undefined {
  if (node?.kind === 'scalar') {
    const is = reader.ranged(node, dimension);
    return is && { cases: [{ is, place: reader.place(node.span) }] };
  }
  if (node?.kind !== 'list') return undefined;
  const cases = node.items.flatMap((item): ValueCase[] => {
    const fields = new Fields(item);
    const value = fields.get('is');
    const is = reader.ranged(value, dimension);
    return is && value ? [{ when: readTest(reader, fields.get('when')), is, place: reader.place(value.span) }] : [];
  });
  return cases.length > 0 ? { cases } : undefined;
}

/** `only: relay-fed` or a list; absent means every variant. */
export function readOnly(reader: Reader, fields: Fields): readonly Ref[] | undefined {
  const node = fields.get('only');
  return node === undefined || node.kind === 'empty' ? undefined : reader.refs(node);
}

/** `allow:` of a file, one entry a rule. */
export function readAllowances(reader: Reader, node: Node | undefined): readonly Allowance[] {
  return entriesOf(node).map(entry => {
    const fields = new Fields(entry.value);
    const within = fields.get('in');
    return {
      rule: reader.ref(entry.key),
      within: within && reader.refs(within),
      because: reader.text(fields.get('because'))?.text,
    };
  });
}

/** Minutes from `3 min` or `90 s`. */
export function readMinutes(reader: Reader, node: Node | undefined): number | undefined {
  if (node?.kind === 'scalar' && /^\d+([.,]\d+)?$/.test(node.text)) return Number(node.text.replace(',', '.'));
  const seconds = reader.quantity(node, 'time');
  return seconds === undefined ? undefined : seconds / 60;
}
