import type { Span, Unit } from '../base/span.ts';
import type { SyntaxProblem } from './problems.ts';

export type { Span, Unit } from '../base/span.ts';
export type { SyntaxProblem } from './problems.ts';

/** What the author wrote, as maps, lists and text. Nodes are immutable and are kept, `===`, while the text of their unit is unchanged. */
export type Node = MapNode | ListNode | ScalarNode | EmptyNode;

/** Its span may reach beyond its unit where the entries are units of their own; `SyntaxTree.absolute` takes that into account. */
export interface MapNode {
  readonly kind: 'map';
  readonly span: Span;
  /** In the order written. A name that stands twice is here twice; `find` gives the first. */
  readonly entries: readonly Entry[];
}

export interface Entry {
  readonly key: ScalarNode;
  /** An alias is the very node that its anchor names, so the span of a value may lie outside the span of its entry. */
  readonly value: Node;
  /** From the first character of the key to the end of the value. */
  readonly span: Span;
}

export interface ListNode {
  readonly kind: 'list';
  readonly span: Span;
  readonly items: readonly Node[];
}

export interface ScalarNode {
  readonly kind: 'scalar';
  /** With its quotes; a block text from its `|` or `>` to its last character. */
  readonly span: Span;
  /** Always text, with escapes resolved and lines folded: `on`, `12`, `null` and `1e3` mean what the author wrote. */
  readonly text: string;
  /** In single or double quotes. */
  readonly quoted: boolean;
}

/** Nothing behind a `key:` or a `-`: a span without width, right behind the colon or the dash. */
export interface EmptyNode {
  readonly kind: 'empty';
  readonly span: Span;
}

/** A unit and the offset in the text at which it begins. */
export interface PlacedUnit {
  readonly unit: Unit;
  readonly base: number;
}

/** Offsets in UTF-16 code units from the start of the text. */
export interface TextRange {
  readonly start: number;
  readonly end: number;
}

/** One version of one file. Immutable: `parse(text, tree)` makes the next one and takes over every unit whose text is the same. */
export interface SyntaxTree {
  readonly text: string;
  readonly root: Node;
  /** In the order of the text. */
  readonly problems: readonly SyntaxProblem[];
  /** False where the text is no YAML to speak of (binary, too large, with merge conflicts): then `root` is empty. */
  readonly readable: boolean;
  /** In the order of the text; together they cover it without a gap. */
  readonly units: readonly PlacedUnit[];
  /** Where a span of this tree stands in the text; the very start of the text for a span of another tree. */
  absolute(span: Span): TextRange;
  /** The unit that holds the character at the offset; the last unit at the end of the text. */
  unitAt(offset: number): PlacedUnit | undefined;
  /** Whether the unit has a problem, so that something missing from it may just not have been understood. */
  damaged(unit: Unit): boolean;
}

/** The first entry of that name. */
export function find(node: Node | undefined, key: string): Entry | undefined {
  return node?.kind === 'map' ? node.entries.find(entry => entry.key.text === key) : undefined;
}
