import type { Span } from '../base/span.ts';
import type { EmptyNode, ListNode, MapNode, Node, ScalarNode } from '../syntax/tree.ts';
import { meantValue, writeInstead } from './meant.ts';
import type { ShapeProblem } from './problem.ts';
import type { Shape, TextShape } from './shape.ts';
import { nodeWords, oneOf, quote, taken, takesOneLine, written, writtenLine } from './words.ts';

/** Text, a list or a map where the place takes something else. */
export function wrongShape(shape: Shape, node: Exclude<Node, EmptyNode>, owner: ScalarNode | undefined): ShapeProblem {
  const span = node.kind === 'scalar' ? node.span : (owner?.span ?? firstToken(node));
  if (node.kind === 'scalar' && shape.maps.length > 0 && beginsLine(node)) {
    const { detail } = advice(shape, owner);
    const message = `${quote(node.text)} has no colon yet`;
    return { id: 'wrong-shape', span, message, detail, help: `Write ${quote(`${node.text}:`)} and its value.` };
  }
  const message = `${subjectOf(shape, owner)} takes ${taken(shape)}, not ${nodeWords[node.kind]}${takesOneLine(shape.maps) ? ' alone' : ''}`;
  return { id: 'wrong-shape', span, message, ...advice(shape, owner) };
}

/** Nothing behind the colon or the dash: calm, since every value looks like this before it is typed. */
export function emptyValue(shape: Shape, node: Node, owner: ScalarNode | undefined): ShapeProblem {
  const message = owner ? `${quote(owner.text)} has no value yet` : `${subjectOf(shape, owner)} is still empty`;
  return { id: 'empty-value', span: owner?.span ?? node.span, message, ...advice(shape, owner) };
}

/** A text that is not among those that the place takes. */
export function unknownValue(
  shape: Shape,
  place: TextShape,
  node: ScalarNode,
  owner: ScalarNode | undefined,
): ShapeProblem {
  const { span, text } = node;
  const { description: detail } = shape;
  const meant = meantValue(text, place);
  const id = owner?.text === 'kind' ? 'unknown-kind' : 'unknown-value';
  const noun = shape.title || `value of ${owner ? quote(owner.text) : 'this list'}`;
  const message = `${quote(text)} is not a ${noun}`;
  if (meant === undefined) return { id, span, message, detail, help: `Write ${oneOf(valuesOf(place), 40)}.` };
  const fixes = [writeInstead(meant, span, text)];
  return { id, span, message, detail, help: `Write \`${meant}\`.`, fixes };
}

/** A version of the language that this release does not read. */
export function wrongFormat(node: ScalarNode, format: number): ShapeProblem {
  const { span, text } = node;
  const id = 'wrong-format-version';
  if (Number(text) > format) {
    const message = `This release reads \`format\` up to ${format}, and the file says ${quote(text)}`;
    const detail = 'A later format may have keys that this release does not know, so the file is not checked further.';
    return { id, span, message, detail, help: 'Update Faultwalk to a release that reads this format.' };
  }
  const fixes = [{ title: `Write \`${format}\``, span, text: String(format) }];
  return { id, span, message: `There is no \`format\` ${quote(text)}`, help: `Write \`format: ${format}\`.`, fixes };
}

/** Whether the file may hold what this release cannot know. */
export function isLaterFormat(problem: ShapeProblem): boolean {
  return problem.id === 'wrong-format-version' && !problem.fixes;
}

/** Too few or too many entries of a list. */
export function wrongCount(shape: Shape, node: ListNode, owner: ScalarNode | undefined): ShapeProblem {
  const { min, max } = shape.list!;
  const { length } = node.items;
  const wanted = length < min ? min : max;
  const bound = min === max ? '' : length < min ? 'at least ' : 'at most ';
  const subject = owner ? quote(owner.text) : 'This list';
  const message = `${subject} takes ${bound}${wanted} ${wanted === 1 ? 'entry' : 'entries'}, not ${length}`;
  return { id: 'wrong-count', span: owner?.span ?? firstToken(node), message, ...advice(shape, owner) };
}

function subjectOf(shape: Shape, owner: ScalarNode | undefined): string {
  return owner ? quote(owner.text) : `This ${shape.title || 'entry'}`;
}

function valuesOf(place: TextShape): string[] {
  return (place.values ?? []).map(({ value }) => value);
}

/** What the place is for, and how it is written. */
function advice(shape: Shape, owner: ScalarNode | undefined): Pick<ShapeProblem, 'detail' | 'help'> {
  const { description, examples, text, list, maps } = shape;
  const detail = description || undefined;
  if (text?.values) return { detail, help: `Write ${oneOf(valuesOf(text), 40)}.` };
  const [example] = examples;
  if (example === undefined) return { detail };
  if (list && !list.items.text && Array.isArray(example) && example.length > 0) {
    return { detail, help: `Write lines below it like \`- ${lineOf(list.items, example[0])}\`.` };
  }
  const line = owner
    ? writtenLine({ [owner.text]: example })
    : takesOneLine(maps)
      ? lineOf(shape, example)
      : written(example);
  return { detail, help: `Write it like \`${line}\`.` };
}

/** A map with one entry, such as a wire, stands in a list without braces. */
function lineOf({ maps }: Shape, example: unknown): string {
  return takesOneLine(maps) ? writtenLine(example as object) : written(example);
}

/** A word alone on its line, as every key is before its colon is typed. */
function beginsLine({ span: { unit, start }, text }: ScalarNode): boolean {
  const before = unit.text.slice(unit.text.lastIndexOf('\n', start - 1) + 1, start);
  return start > 0 && before.trim() === '' && !text.includes('\n');
}

/** The first token of a list or a map, so that a message never covers whole paragraphs. */
function firstToken(node: ListNode | MapNode): Span {
  const first: Node | undefined = node.kind === 'map' ? node.entries[0]?.key : node.items[0];
  if (!first) return node.span;
  return first.kind === 'map' || first.kind === 'list' ? firstToken(first) : first.span;
}
