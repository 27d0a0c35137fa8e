import type { Node, Span, SyntaxTree } from '../../server/src/syntax/tree.ts';

/** The values of a tree as plain data: what `yaml` gives with its failsafe schema. */
export type Plain = string | Plain[] | { [key: string]: Plain };

export function plain(node: Node): Plain {
  switch (node.kind) {
    case 'map':
      return Object.fromEntries(node.entries.map(entry => [entry.key.text, plain(entry.value)]));
    case 'list':
      return node.items.map(plain);
    case 'scalar':
      return node.text;
    case 'empty':
      return '';
  }
}

/** Everything there is to know of a tree, in absolute offsets, so that two trees of one text can be compared. */
export function dump(tree: SyntaxTree): unknown {
  const at = (span: Span) => Object.values(tree.absolute(span)).join('-');
  const node = (n: Node): unknown => {
    if (n.kind === 'map')
      return { map: at(n.span), entries: n.entries.map(e => [at(e.span), node(e.key), node(e.value)]) };
    if (n.kind === 'list') return { list: at(n.span), items: n.items.map(node) };
    return n.kind === 'scalar' ? `${at(n.span)} ${n.quoted ? 'quoted ' : ''}${n.text}` : `${at(n.span)} empty`;
  };
  const problems = tree.problems.map(({ span, related, ...problem }) => ({
    ...problem,
    at: at(span),
    related: related?.map(other => `${at(other.span)} ${other.message}`),
  }));
  return { readable: tree.readable, root: node(tree.root), problems, bases: tree.units.map(unit => unit.base) };
}

export interface Told {
  readonly id: string;
  /** The source the problem points at. */
  readonly at: string;
  readonly message: string;
}

/** The problems of a tree with the source that each of them marks. */
export function told(tree: SyntaxTree): Told[] {
  return tree.problems.map(({ id, span, message }) => {
    const { start, end } = tree.absolute(span);
    return { id, at: tree.text.slice(start, end), message };
  });
}

/** Visits every node below one, itself included. */
export function visit(node: Node, seen: (node: Node) => void): void {
  seen(node);
  if (node.kind === 'list') for (const item of node.items) visit(item, seen);
  if (node.kind !== 'map') return;
  for (const entry of node.entries) {
    seen(entry.key);
    visit(entry.value, seen);
  }
}

/** A procedure of invented values that uses most of what YAML offers an author. */
export const sample = `# Auxiliary flow control
format: 1
procedure: aux-flow-drops-out
title: "Auxiliary flow stops \\u0062y itself"   # folded by hand
system: loader-aux.system.yaml
starts from: [ { symptom: flow stops }, { code: 'C1A05' } ]
tools: [multimeter,
  back-probe pins, recorder]

steps:
  look:
    title: Look at the harness
    cautions:
      - warning: >
          Release the pressure
          before touching a hose

          and wait.
    inspect: [ W41, X12 ]
    answers: { damage found: mend, all sound: sense }

  # between two steps

  sense:
    title: Keypad sense voltage
    set: { key: run, S6: on }
    measure: voltage
    red: A1.14 (back-probe)
    limits: 1.55 V .. 2.05 V
    then:
      within: record
      "below 0.3 V": short
      otherwise:
    note: |-
      Ω and 𝛀 count
        as one and two
wires:
- W41: S6.1 to A1.14 through X12/3, 0.75 mm²
-
  W42: S6.2 to GND-4
-
endings:
  mend: { mend: [W41, X12] }
`;
