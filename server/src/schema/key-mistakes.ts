import type { Span } from '../base/span.ts';
import { find, type MapNode, type ScalarNode } from '../syntax/tree.ts';
import { selectorsOf } from './choose.ts';
import { addKey } from './fix.ts';
import { meantKey } from './meant.ts';
import type { ShapeProblem } from './problem.ts';
import type { Key, MapShape, Shape } from './shape.ts';
import { article, nounOf, oneOf, quote, upper, written } from './words.ts';

/** Required keys that are not there; where none is required, that the map says nothing. */
export function missing(
  shape: Shape,
  map: MapShape,
  node: MapNode,
  owner: ScalarNode | undefined,
): readonly ShapeProblem[] {
  const absent = map.required.filter(({ key }) => !find(node, key) && !isThereMisspelt(key, [map], node));
  if (absent.length > 0) return absent.map(key => missingKey(subjectOf(shape, [map], owner), key, node, owner));
  if (node.entries.length >= map.min) return [];
  const message = `${subjectOf(shape, [map], owner)} has no entry yet`;
  const example = shape.examples.length > 0 ? `, for example \`${written(shape.examples[0])}\`` : '';
  const keys = [...map.keys.keys()];
  const help = keys.length > 0 ? `Add ${oneOf(keys)}.` : `Add one${example}.`;
  return [{ id: 'missing-key', span: tokenOf(node, owner), message, help }];
}

/** Two keys of which each chooses another map, or more entries than the map takes. */
export function conflicts(shape: Shape, chosen: readonly MapShape[], node: MapNode): readonly ShapeProblem[] {
  if (chosen.length > 1) return [conflict(shape, chosen, node)];
  const [map] = chosen;
  const first = node.entries[0];
  const extra = map && node.entries[map.max];
  if (!map || !first || !extra) return [];
  const { span, text } = extra.key;
  const message = `${quote(text)} cannot stand beside ${quote(first.key.text)}`;
  const noun = nounOf(shape, [map]);
  const detail = map.others
    ? `Every ${noun} is an entry of its own.`
    : `${upper(article(noun))} takes one of ${oneOf([...map.keys.keys()])}.`;
  const help = map.others ? 'Begin it with a dash on a line of its own.' : 'Keep one of them.';
  return [{ id: 'conflicting-keys', span, message, detail, help }];
}

/** Nothing tells which of several maps is meant: no `kind`, no action, none of the keys that choose. */
export function nothingChosen(shape: Shape, node: MapNode, owner: ScalarNode | undefined): ShapeProblem {
  const span = tokenOf(node, owner);
  const subject = subjectOf(shape, [], owner);
  if (shape.chosenBy === 'kind') {
    const message = `${subject} has no \`kind\``;
    const detail = `Every ${shape.title} says by its \`kind\` what it is; the other keys follow from that.`;
    const help = 'Add `kind`, for example `kind: fuse`.';
    return { id: 'missing-key', span, message, detail, help, fixes: addKey(node, 'kind', ''), key: 'kind' };
  }
  const names = oneOf(selectorsOf(shape.maps));
  if (shape.chosenBy === 'action') {
    const message = `${subject} has no action`;
    return { id: 'no-action', span, message, detail: exactlyOne(shape), help: `Add one of ${names}.` };
  }
  return { id: 'missing-key', span, message: `${subject} has no ${names}`, help: 'Add one of them.' };
}

/** Whether an unknown key was meant to choose; then that is the one mistake. */
export function triesToChoose(shape: Shape, node: MapNode): boolean {
  if (shape.chosenBy === 'kind') return isThereMisspelt('kind', shape.maps, node);
  return node.entries.some(({ key }) => !shape.maps.some(map => map.keys.has(key.text)));
}

function missingKey(subject: string, missed: Key, node: MapNode, owner: ScalarNode | undefined): ShapeProblem {
  const { key, shape } = missed;
  const format = shape.text?.format;
  const example = shape.examples.length > 0 ? `: ${written(shape.examples[0])}` : '';
  return {
    id: 'missing-key',
    span: tokenOf(node, owner),
    message: `${subject} has no \`${key}\``,
    detail: shape.description || undefined,
    help: `Add \`${key}${example}\`${example && format === undefined ? ' with your own value' : ''}.`,
    fixes: addKey(node, key, format === undefined ? '' : ` ${format}`),
    key,
  };
}

function conflict(shape: Shape, chosen: readonly MapShape[], node: MapNode): ShapeProblem {
  const [first, second] = selectorsOf(chosen);
  const { span } = find(node, second!)!.key;
  const isAction = shape.chosenBy === 'action';
  const id = isAction ? 'more-than-one-action' : 'conflicting-keys';
  const message = `\`${second}\` ${isAction ? 'is a second action' : 'cannot stand'} beside \`${first}\``;
  const help = `Keep one of them, and give the other ${article(shape.title)} of its own.`;
  return { id, span, message, detail: exactlyOne(shape), help };
}

function exactlyOne(shape: Shape): string {
  return `${upper(article(shape.title))} has exactly one of ${oneOf(selectorsOf(shape.maps))}.`;
}

/** What the message is about: the author's own name for it, else what it is. */
function subjectOf(shape: Shape, maps: readonly MapShape[], owner: ScalarNode | undefined): string {
  return owner ? quote(owner.text) : `This ${nounOf(shape, maps)}`;
}

/** The token that stands for a map: the key above, else its first key. */
function tokenOf(node: MapNode, owner: ScalarNode | undefined): Span {
  return owner?.span ?? node.entries[0]?.key.span ?? node.span;
}

/** Whether a key is there in other words or with a slip of the pen; then it is not missing as well. */
function isThereMisspelt(name: string, maps: readonly MapShape[], node: MapNode): boolean {
  return node.entries.some(({ key }) => !maps.some(map => map.keys.has(key.text)) && meantKey(key.text, maps) === name);
}
