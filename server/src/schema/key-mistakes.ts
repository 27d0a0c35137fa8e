import { closest } from '../base/closest.ts';
import { type Entry, find, type MapNode, type ScalarNode } from '../syntax/tree.ts';
import { addKey, quoteText } from './fix.ts';
import type { ShapeProblem } from './problem.ts';
import type { MapShape, Shape } from './shape.ts';
import { article, oneOf, quote, written } from './words.ts';

/** A key that has no place here. What stands below it is not looked at. */
export function unknownKey(shape: Shape, allowed: readonly MapShape[], node: MapNode, entry: Entry): ShapeProblem {
  const { key } = entry;
  const { span, text } = key;
  const noun = article(nounOf(shape, allowed));
  const reason = allowed.flatMap(map => map.denied.get(text) ?? [])[0];
  if (reason !== undefined) {
    return {
      id: 'unknown-key',
      span,
      message: `${quote(text)} cannot differ by variant`,
      detail: reason,
      help: `Remove ${quote(text)} here.`,
    };
  }
  const message = `${quote(text)} is not a key of ${noun}`;
  const cut = quoteText(node, entry);
  if (cut) {
    const detail = 'Inside { } a comma ends the value before it, unless that value is quoted.';
    return { id: 'unknown-key', span, message, detail, help: `Write \`${cut.text}\`, with the quotes.`, fixes: [cut] };
  }
  const keys = allowed.flatMap(map => [...map.keys.keys(), ...map.beginnings.keys()]);
  const meant = closest(text, keys);
  if (meant !== undefined) {
    const help = find(node, meant) ? `Remove it: \`${meant}\` is there already.` : `Write \`${meant}\`.`;
    const fixes = find(node, meant) ? [] : [{ title: `Write \`${meant}\``, span, text: meant }];
    return { id: 'unknown-key', span, message, help, fixes };
  }
  const homes = shape.maps.filter(map => map.keys.has(text)).map(map => map.title);
  const detail =
    homes.length > 0 ? `${quote(text)} belongs to ${homes.slice(0, 3).map(article).join(' or ')}.` : undefined;
  const free = [...new Set(keys)].filter(name => !find(node, name));
  return {
    id: 'unknown-key',
    span,
    message,
    detail,
    help: free.length > 0 ? `Use ${oneOf(free)}, or remove it.` : 'Remove it.',
  };
}

/** Required keys that are not there; for a map of free keys, that there is none. */
export function missing(shape: Shape, map: MapShape, node: MapNode, owner: ScalarNode | undefined): ShapeProblem[] {
  const span = tokenOf(node, owner);
  const subject = subjectOf(shape, [map], owner);
  const absent = [...map.keys.values()].filter(
    ({ key, required }) => required && !find(node, key) && !isMisspelt(key, map.keys, node),
  );
  const problems = absent.map(({ key, shape: { examples, description, text } }): ShapeProblem => {
    const example = examples.length > 0 ? `: ${written(examples[0])}` : '';
    const value = text?.format === undefined ? '' : ` ${text.format}`;
    return {
      id: 'missing-key',
      span,
      message: `${subject} has no \`${key}\``,
      detail: description || undefined,
      help: `Add \`${key}${example}\`${example && !value ? ' with your own value' : ''}.`,
      fixes: addKey(node, key, value),
    };
  });
  if (absent.length > 0 || node.entries.length >= map.min) return problems;
  const names = [...map.keys.keys()];
  const message = names.length > 0 ? `${subject} says nothing yet` : `${subject} has no entry yet`;
  return [
    { id: 'missing-key', span, message, help: names.length > 0 ? `Add ${oneOf(names)}.` : `Add one${like(shape)}.` },
  ];
}

/** Two keys of which each chooses another map, or more entries than one map takes. */
export function conflicts(shape: Shape, chosen: readonly MapShape[], node: MapNode): ShapeProblem[] {
  const [map, ...more] = chosen;
  if (more.length > 0) {
    const [first, second] = chosen.map(({ selector }) => selector!);
    const span = find(node, second!)!.key.span;
    const noun = shape.title;
    const help = `Keep one of them, and give the other ${article(noun)} of its own.`;
    if (shape.chosenBy !== 'action') {
      return [
        {
          id: 'conflicting-keys',
          span,
          message: `\`${second}\` cannot stand beside \`${first}\``,
          detail: choice(shape),
          help,
        },
      ];
    }
    return [
      {
        id: 'more-than-one-action',
        span,
        message: `\`${second}\` is a second action beside \`${first}\``,
        detail: choice(shape),
        help,
      },
    ];
  }
  if (!map || node.entries.length <= map.max) return [];
  const { key } = node.entries[map.max]!;
  const message = `${quote(key.text)} cannot stand beside ${quote(node.entries[0]!.key.text)}`;
  const help = map.others ? 'Begin it with a dash on a line of its own.' : 'Keep one of them.';
  const detail = `${upper(article(nounOf(shape, [map])))} takes one key.`;
  return [{ id: 'conflicting-keys', span: key.span, message, detail, help }];
}

/** Nothing tells which of several maps is meant: no `kind`, no action, none of the keys that choose. */
export function nothingChosen(shape: Shape, node: MapNode, owner: ScalarNode | undefined): ShapeProblem {
  const span = tokenOf(node, owner);
  const subject = subjectOf(shape, [], owner);
  if (shape.chosenBy === 'kind') {
    const detail = `Every ${shape.title} says by its \`kind\` what it is; the other keys follow from that.`;
    return {
      id: 'missing-key',
      span,
      message: `${subject} has no \`kind\``,
      detail,
      help: 'Add `kind`, for example `kind: fuse`.',
      fixes: addKey(node, 'kind', ''),
    };
  }
  const names = shape.maps.map(({ selector }) => selector!);
  const help = `Add ${oneOf(names)}.`;
  if (shape.chosenBy === 'action')
    return { id: 'no-action', span, message: `${subject} has no action`, detail: choice(shape), help };
  return { id: 'missing-key', span, message: `${subject} has none of ${oneOf(names).replace(' or ', ', ')}`, help };
}

function choice(shape: Shape): string {
  return `${upper(article(shape.title))} has exactly one of ${oneOf(shape.maps.map(({ selector }) => selector!))}.`;
}

function nounOf(shape: Shape, maps: readonly MapShape[]): string {
  return (maps.length === 1 && maps[0]!.title) || shape.title || 'this place';
}

/** What the message is about: the author's own name for it, else what it is. */
function subjectOf(shape: Shape, maps: readonly MapShape[], owner: ScalarNode | undefined): string {
  return owner ? quote(owner.text) : `This ${nounOf(shape, maps)}`;
}

/** The token that stands for a map: the key above, else its first key. */
function tokenOf(node: MapNode, owner: ScalarNode | undefined) {
  return owner?.span ?? node.entries[0]?.key.span ?? node.span;
}

/** Whether a key is there with a slip of the pen; then it is not missing as well. */
export function isMisspelt(
  name: string,
  known: ReadonlySet<string> | ReadonlyMap<string, unknown>,
  node: MapNode,
): boolean {
  return node.entries.some(({ key }) => !known.has(key.text) && closest(key.text, known.keys()) === name);
}

function like(shape: Shape): string {
  return shape.examples.length > 0 ? `, for example \`${written(shape.examples[0])}\`` : '';
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
