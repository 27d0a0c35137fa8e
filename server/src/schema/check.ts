import {
  type Entry,
  find,
  type ListNode,
  type MapNode,
  type Node,
  type ScalarNode,
  type SyntaxTree,
} from '../syntax/tree.ts';
import { chosenMaps, keyIn, kindShape } from './choose.ts';
import * as keyMistakes from './key-mistakes.ts';
import type { ShapeProblem } from './problem.ts';
import { type FileKind, rootShape } from './root.ts';
import type { MapShape, Shape, TextShape } from './shape.ts';
import { unknownKey } from './unknown-key.ts';
import * as valueMistakes from './value-mistakes.ts';

/**
 * Checks a whole file. The parts, steps, wires… of its sections are checked one by one, and what was found in one is kept for as
 * long as the tree keeps it. Where the text itself could not be read nothing is said: what is missing there may only not have
 * been understood.
 */
export function checkFile(kind: FileKind, tree: SyntaxTree): readonly ShapeProblem[] {
  const { root } = tree;
  const shape = rootShape(kind);
  const format = find(root, 'format');
  const formatShape = shape.maps[0]?.keys.get('format')?.shape;
  const unread = format && formatShape ? checkEntry(formatShape, format).find(valueMistakes.isLaterFormat) : undefined;
  if (unread) return [unread];
  const sections: Below = (section, node, owner) =>
    isSection(section, node) ? check(section, node, owner, remembered) : remembered(section, node, owner);
  const found = distinct(check(shape, root, undefined, sections));
  return tree.problems.length === 0 ? found : found.filter(problem => isCertain(problem, tree));
}

/** Checks a node and everything below it. Each mistake is told once, at one token; what stands below a mistake is passed over. */
export function checkShape(shape: Shape, node: Node): readonly ShapeProblem[] {
  return distinct(check(shape, node));
}

/** Checks the value of one entry, such as one step of `steps`, against the shape of that value. */
export function checkEntry(shape: Shape, entry: Entry): readonly ShapeProblem[] {
  return distinct(check(shape, entry.value, entry.key));
}

/** Checks what stands below a node; the token of `owner`, the key above, stands for the node as a whole. */
type Below = (shape: Shape, node: Node, owner: ScalarNode | undefined) => readonly ShapeProblem[];

function check(shape: Shape, node: Node, owner?: ScalarNode, below?: Below): readonly ShapeProblem[] {
  const checker = new Checker(below);
  checker.node(shape, node, owner);
  return checker.problems;
}

const remembered: Below = (shape, node, owner) => {
  const before = memory.get(node);
  if (before?.shape === shape && before.owner === owner) return before.problems;
  const problems = check(shape, node, owner);
  memory.set(node, { shape, owner, problems });
  return problems;
};

const memory = new WeakMap<Node, { shape: Shape; owner: ScalarNode | undefined; problems: readonly ShapeProblem[] }>();

/** A top-level key can be missing because its own line was not understood, wherever the message about it would stand. */
function isCertain({ id, span }: ShapeProblem, tree: SyntaxTree): boolean {
  const { root } = tree;
  const isAboutRoot = root.kind === 'map' && span === root.entries[0]?.key.span;
  return !tree.damaged(span.unit) && !(id === 'missing-key' && isAboutRoot);
}

/** A list, or a map whose keys are names that the author gives. */
function isSection(shape: Shape, node: Node): boolean {
  return (
    node.kind === 'list' || (node.kind === 'map' && shape.maps.length === 1 && shape.maps[0]!.others !== undefined)
  );
}

/** What several aliases stand for is looked at for each of them, and its mistakes are told once. */
function distinct(problems: readonly ShapeProblem[]): readonly ShapeProblem[] {
  if (problems.length < 2) return problems;
  const seen = new Map<ShapeProblem['span']['unit'], Set<string>>();
  return problems.filter(({ id, span, message }) => {
    const known = seen.get(span.unit) ?? new Set();
    seen.set(span.unit, known);
    const key = `${span.start} ${id} ${message}`;
    return !known.has(key) && known.add(key);
  });
}

class Checker {
  readonly problems: ShapeProblem[] = [];
  private readonly below: Below | undefined;

  constructor(below?: Below) {
    this.below = below;
  }

  node(shape: Shape, node: Node, owner?: ScalarNode): void {
    const isEmpty = node.kind === 'empty' || (node.kind === 'scalar' && node.text.trim() === '');
    if (isEmpty) {
      if (!shape.mayBeEmpty) this.problems.push(valueMistakes.emptyValue(shape, node, owner));
    } else if (node.kind === 'scalar' && shape.text) this.text(shape, shape.text, node, owner);
    else if (node.kind === 'list' && shape.list) this.list(shape, node, owner);
    else if (node.kind === 'map' && shape.maps.length > 0) this.map(shape, node, owner);
    else this.problems.push(valueMistakes.wrongShape(shape, node, owner));
  }

  private text(shape: Shape, text: TextShape, node: ScalarNode, owner: ScalarNode | undefined): void {
    const { values, format } = text;
    if (format !== undefined) {
      if (node.text !== String(format)) this.problems.push(valueMistakes.wrongFormat(node, format));
    } else if (values && !values.some(({ value }) => value === node.text)) {
      this.problems.push(valueMistakes.unknownValue(shape, text, node, owner));
    }
  }

  private list(shape: Shape, node: ListNode, owner: ScalarNode | undefined): void {
    const { items, min, max } = shape.list!;
    const { length } = node.items;
    if (length < min || length > max) this.problems.push(valueMistakes.wrongCount(shape, node, owner));
    for (const item of node.items) this.child(items, item, undefined);
  }

  private map(shape: Shape, node: MapNode, owner: ScalarNode | undefined): void {
    const chosen = chosenMaps(shape, node);
    if (chosen.length === 0) this.undecided(shape, node, owner);
    for (const entry of node.entries) this.entry(shape, chosen, node, entry);
    this.problems.push(...keyMistakes.conflicts(shape, chosen, node));
    if (chosen.length === 1) this.problems.push(...keyMistakes.missing(shape, chosen[0]!, node, owner));
  }

  /** Nothing says which of several maps is meant. */
  private undecided(shape: Shape, node: MapNode, owner: ScalarNode | undefined): void {
    const kind = shape.chosenBy === 'kind' ? find(node, 'kind') : undefined;
    if (kind) this.node(kindShape(shape), kind.value, kind.key);
    else if (!keyMistakes.triesToChoose(shape, node)) this.problems.push(keyMistakes.nothingChosen(shape, node, owner));
  }

  private entry(shape: Shape, chosen: readonly MapShape[], node: MapNode, entry: Entry): void {
    const { key, value } = entry;
    const under = shapeUnder(chosen, key.text);
    if (under) this.child(under, value, key);
    else if (chosen.length > 0) this.problems.push(unknownKey(shape, chosen, node, entry));
    // As long as nothing is chosen, a key that one of the maps has may be right, and what it takes is not known.
    else if (!shapeUnder(shape.maps, key.text)) this.problems.push(unknownKey(shape, shape.maps, node, entry));
  }

  private child(shape: Shape, node: Node, owner: ScalarNode | undefined): void {
    if (this.below === undefined) {
      this.node(shape, node, owner);
      return;
    }
    // One by one: a call cannot take as many arguments as a large file can have mistakes.
    for (const problem of this.below(shape, node, owner)) this.problems.push(problem);
  }
}

function shapeUnder(maps: readonly MapShape[], key: string): Shape | undefined {
  for (const map of maps) {
    const known = keyIn(map, key)?.shape ?? map.others;
    if (known) return known;
  }
  return undefined;
}
