import { closest } from '../base/closest.ts';
import type { EmptyNode, ListNode, MapNode, ScalarNode } from '../syntax/tree.ts';
import type { ShapeProblem } from './problem.ts';
import type { Shape, ValueDoc } from './shape.ts';
import { nodeWords, oneOf, quote, taken, written } from './words.ts';

/** Text, a list or a map where the place takes something else. */
export function wrongShape(
  shape: Shape,
  node: ScalarNode | ListNode | MapNode,
  owner: ScalarNode | undefined,
): ShapeProblem {
  const subject = owner ? quote(owner.text) : `${shape.title ? `This ${shape.title}` : 'This entry'}`;
  const span = node.kind === 'scalar' ? node.span : (owner?.span ?? firstToken(node));
  const message = `${subject} takes ${taken(shape)}, not ${nodeWords[node.kind]}`;
  return { id: 'wrong-shape', span, message, detail: shape.description || undefined, help: writeLike(shape, owner) };
}

/** Nothing behind the colon or the dash: calm, since it is what every value looks like while it is being typed. */
export function emptyValue(shape: Shape, node: EmptyNode, owner: ScalarNode | undefined): ShapeProblem {
  if (!owner)
    return {
      id: 'empty-value',
      span: node.span,
      message: 'Nothing is written here yet',
      help: writeLike(shape, owner),
    };
  const values = shape.text?.values?.map(({ value }) => value);
  const help = values ? `Write ${oneOf(values)}.` : writeLike(shape, owner);
  return {
    id: 'empty-value',
    span: owner.span,
    message: `${quote(owner.text)} has no value yet`,
    detail: shape.description || undefined,
    help,
  };
}

/** A text that is not among those that the place takes. */
export function unknownValue(
  shape: Shape,
  values: readonly ValueDoc[],
  node: ScalarNode,
  owner: ScalarNode | undefined,
): ShapeProblem {
  const { span, text } = node;
  const names = values.map(({ value }) => value);
  const meant = closest(text, names);
  const isKind = owner?.text === 'kind';
  const message = isKind
    ? `${quote(text)} is not a kind of part`
    : `${quote(text)} is not a value of ${owner ? quote(owner.text) : 'this list'}`;
  const help = meant === undefined ? `Write ${oneOf(names, 40)}.` : `Write \`${meant}\`.`;
  const fixes = meant === undefined ? [] : [{ title: `Write \`${meant}\``, span, text: meant }];
  return {
    id: isKind ? 'unknown-kind' : 'unknown-value',
    span,
    message,
    detail: shape.description || undefined,
    help,
    fixes,
  };
}

/** A version of the language that this release does not read. */
export function wrongFormat(node: ScalarNode, format: number): ShapeProblem {
  const { span, text } = node;
  if (Number(text) > format) {
    return {
      id: 'wrong-format-version',
      span,
      message: `This release reads \`format\` up to ${format}, and the file says ${quote(text)}`,
      detail: 'A later format may have keys that this release does not know, so the file is not checked further.',
      help: 'Update Faultwalk to a release that reads this format.',
    };
  }
  const fixes = [{ title: `Write \`${format}\``, span, text: String(format) }];
  return {
    id: 'wrong-format-version',
    span,
    message: `There is no \`format\` ${quote(text)}`,
    help: `Write \`format: ${format}\`.`,
    fixes,
  };
}

/** Whether a file may hold what this release cannot know. */
export function isLaterFormat(problem: ShapeProblem): boolean {
  return problem.id === 'wrong-format-version' && !problem.fixes;
}

/** Too few or too many entries of a list. */
export function wrongCount(shape: Shape, node: ListNode, owner: ScalarNode | undefined): ShapeProblem {
  const { min, max } = shape.list!;
  const { length } = node.items;
  const wanted = min === max ? `${min}` : length < min ? `at least ${min}` : `at most ${max}`;
  const subject = owner ? quote(owner.text) : 'This list';
  const message = `${subject} takes ${wanted} ${wanted.endsWith('1') ? 'entry' : 'entries'}, not ${length}`;
  const span = owner?.span ?? firstToken(node);
  return { id: 'wrong-count', span, message, detail: shape.description || undefined, help: writeLike(shape, owner) };
}

function writeLike(shape: Shape, owner: ScalarNode | undefined): string | undefined {
  if (shape.examples.length === 0) return undefined;
  const example = written(shape.examples[0]);
  return `Write it like \`${owner ? `${owner.text}: ` : ''}${example}\`.`;
}

/** The first token of a list or a map, so that a message never covers whole paragraphs. */
function firstToken(node: ListNode | MapNode): ListNode['span'] {
  let first: ListNode | MapNode | ScalarNode | EmptyNode | undefined = node;
  while (first && (first.kind === 'map' || first.kind === 'list')) {
    const inner: ListNode | MapNode | ScalarNode | EmptyNode | undefined =
      first.kind === 'map' ? first.entries[0]?.key : first.items[0];
    if (!inner) return first.span;
    first = inner;
  }
  return first?.span ?? node.span;
}
