import type { FileView } from '../analysis/view.ts';
import { type Entry, find, type Node, type SyntaxTree } from '../syntax/tree.ts';
import type { Stretch } from './project.ts';

export type OutlineKind =
  | 'section'
  | 'step'
  | 'ending'
  | 'part'
  | 'pin'
  | 'scan datum'
  | 'connector'
  | 'ground'
  | 'splice'
  | 'wire'
  | 'condition'
  | 'variant'
  | 'specification'
  | 'row'
  | 'walk';

/** A line of the outline. */
export interface OutlineItem extends Stretch {
  readonly name: string;
  readonly detail: string;
  readonly kind: OutlineKind;
  /** The name itself. */
  readonly selection: Stretch;
  readonly children: readonly OutlineItem[];
}

/** Steps and endings of a procedure, parts, wires and the like of a system, walks of a file of samples; read from the text alone. */
export function outline({ tree }: FileView): OutlineItem[] {
  return entriesOf(tree.root).flatMap(section => {
    const kind = sections[section.key.text];
    const children = kind ? itemsIn(section.value).map(entry => item(tree, kind, entry)) : [];
    return children.length > 0 ? [{ ...item(tree, 'section', section), detail: '', children }] : [];
  });
}

const sections: Record<string, OutlineKind> = {
  steps: 'step',
  endings: 'ending',
  variants: 'variant',
  conditions: 'condition',
  parts: 'part',
  connectors: 'connector',
  grounds: 'ground',
  splices: 'splice',
  wires: 'wire',
  specifications: 'specification',
  walks: 'walk',
};

/** What stands below an item of a kind: the key of the map that holds it. */
const below: Partial<Record<OutlineKind, readonly (readonly [string, OutlineKind])[]>> = {
  part: [
    ['pins', 'pin'],
    ['scan data', 'scan datum'],
  ],
  specification: [['rows', 'row']],
};

function item(tree: SyntaxTree, kind: OutlineKind, entry: Entry): OutlineItem {
  const children = (below[kind] ?? []).flatMap(([key, childKind]) =>
    entriesOf(find(entry.value, key)?.value).map(child => item(tree, childKind, child)),
  );
  return {
    ...tree.absolute(entry.span),
    name: entry.key.text || '…',
    detail: detailOf(kind, entry.value),
    kind,
    selection: tree.absolute(entry.key.span),
    children,
  };
}

const verbs = ['inspect', 'operate', 'measure', 'read', 'record', 'ask', 'do'];
const endings = ['replace', 'mend', 'adjust', 'no fault', 'repaired', 'continue in', 'refer'];

/** `measure · Keypad sense voltage`, `relay · Supply relay`. */
function detailOf(kind: OutlineKind, value: Node): string {
  if (value.kind === 'scalar') return value.text;
  const words = { step: verbs, ending: endings }[kind as string] ?? [];
  const word = words.find(key => find(value, key)) ?? textOf(value, 'kind') ?? '';
  const title = textOf(value, 'title') ?? textOf(value, 'name') ?? (words.length > 0 ? textOf(value, word) : '') ?? '';
  return [word, title].filter(text => text !== '').join(' · ');
}

function textOf(node: Node, key: string): string | undefined {
  const value = find(node, key)?.value;
  if (value?.kind === 'list') return value.items.flatMap(one => (one.kind === 'scalar' ? [one.text] : [])).join(', ');
  return value?.kind === 'scalar' ? value.text : undefined;
}

function itemsIn(node: Node): readonly Entry[] {
  return node.kind === 'list' ? node.items.flatMap(entriesOf) : entriesOf(node);
}

function entriesOf(node: Node | undefined): readonly Entry[] {
  return node?.kind === 'map' ? node.entries : [];
}
