import { describe, expect, it } from 'vitest';
import { checkShape } from '../../server/src/schema/check.ts';
import { keysOf, shapeOf, valuesOf } from '../../server/src/schema/place.ts';
import { fileKindOf, rootShape } from '../../server/src/schema/root.ts';
import type { Shape } from '../../server/src/schema/shape.ts';
import { snippetOf } from '../../server/src/schema/snippet.ts';
import { parse } from '../../server/src/syntax/parse.ts';
import { find, type MapNode, type Node } from '../../server/src/syntax/tree.ts';
import { kinds, shown } from './support.ts';

describe('the kind of a file', () => {
  it.each([
    ['file:///a/loader.system.yaml', 'system'],
    ['file:///a/flow.procedure.yml', 'procedure'],
    ['FLOW.SAMPLES.YAML', 'samples'],
    ['file:///a/system.yaml', undefined],
    ['file:///a/loader.system.yaml.bak', undefined],
  ])('of %s', (uri, kind) => expect(fileKindOf(uri)).toBe(kind));
});

describe('the shape at a place', () => {
  const system = mapOf(`
parts:
  F7: { kind: fuse, rating: 10 A }
  A1: { kind: module, pins: { 14: { pull-up: { to: 5 V } } } }
conditions:
  key: [off, run]
wires:
  - W41: S6.1 to A1.14
`);

  it('follows the kind of a part', () => {
    const fuse = at(system, 'parts', 'F7');
    expect(fuse.shape.maps).not.toHaveLength(1);
    expect(keysOf(fuse.shape, fuse.node as MapNode).map(({ key }) => key)).toEqual([
      ...['kind', 'title', 'rating', 'resistance', 'terminals', 'hazard', 'studs', 'access', 'only', 'by variant'],
    ]);
    expect(at(system, 'parts', 'F7', 'rating').shape).toMatchObject({
      description: 'The current that it carries for ever.',
      text: { quantity: { quantity: 'current', form: 'plain' } },
    });
  });

  it('says which names stand there', () => {
    expect(at(system, 'wires', 0, 'W41').shape.text).toMatchObject({ line: 'wire' });
    expect(at(system, 'conditions', 'key', 0).shape.text?.names).toEqual([]);
    expect(at(system, 'conditions', 'key').shape.list?.defines).toBe('state');
    expect(rootShape('system').maps[0]!.keys.get('parts')!.shape.maps[0]!.defines).toBe('part');
  });

  it('of a value is the quantity, however deep', () => {
    expect(at(system, 'parts', 'A1', 'pins', '14', 'pull-up', 'to').shape.text?.quantity).toEqual({
      quantity: 'voltage',
      form: 'ranged',
    });
  });

  it('of a kind lists the kinds, each with what it is', () => {
    const values = valuesOf(at(system, 'parts', 'F7', 'kind').shape);
    expect(values).toContainEqual({ value: 'fuse', description: 'A fuse. Terminals 1 and 2.' });
    const used = [...shown.system.matchAll(/kind: ([^,}\n#]*[^,}\n# ])/g)].map(found => found[1]!);
    expect(values.map(({ value }) => value).sort()).toEqual([...new Set(used)].sort());
  });

  it('of an unknown key is nothing', () => {
    expect(shapeOf(rootShape('system'), system, 'partz')).toBeUndefined();
  });
});

describe('the keys of a step', () => {
  const step = rootShape('procedure').maps[0]!.keys.get('steps')!.shape.maps[0]!.others!;
  const keysFor = (text: string): string[] => keysOf(step, mapOf(text)).map(({ key }) => key);

  it('begin with the actions as long as there is none', () => {
    expect(keysFor('title: Look').slice(0, 8)).toEqual([
      'inspect',
      'operate',
      'measure',
      'read',
      'record',
      'ask',
      'do',
      'title',
    ]);
    expect(keysFor('title: Look')).not.toContain('red');
  });

  it('are those of the action once there is one', () => {
    expect(keysFor('measure: voltage')).toContain('red');
    expect(keysFor('measure: voltage')).not.toContain('inspect');
    expect(keysFor('ask: Warm?')).not.toContain('red');
  });

  it('say which are required', () => {
    const required = keysOf(step, mapOf('measure: voltage')).filter(key => key.required);
    expect(required.map(({ key }) => key)).toEqual(['measure', 'then']);
  });
});

describe.each(kinds)('what completion inserts in a %s file', kind => {
  const shapes = [...shapesBelow(rootShape(kind))];

  it('fits its place', () => {
    // Where a place only opens lines of its own, the next completion goes on from there.
    const closed = shapes.filter(shape => !/^\n\t(- )?\$1$/.test(snippetOf(shape)));
    expect(closed.length).toBeGreaterThan(0);
    for (const shape of closed) {
      const { root } = parse(`key: ${filledIn(snippetOf(shape))}`);
      const said = checkShape(shape, find(root, 'key')!.value).map(({ message }) => message);
      expect(said, snippetOf(shape)).toEqual([]);
    }
  });

  it('is a whole entry, where it brings its key along', () => {
    const entries = shapes.flatMap(shape => shape.entries.map(entry => ({ shape, entry })));
    expect(entries.length).toBeGreaterThan(0);
    for (const { shape, entry } of entries) {
      expect(entry.label, entry.body).not.toBe('');
      const tree = parse(filledIn(entry.body));
      expect(
        tree.problems.map(({ message }) => message),
        entry.body,
      ).toEqual([]);
      const node = tree.root as MapNode;
      // A list item is the map itself; an entry of a map stands under the name that comes with it.
      const ways = [checkShape(shape, node), checkShape(shape, node.entries[0]!.value)];
      expect(Math.min(...ways.map(said => said.length)), entry.body).toBe(0);
    }
  });
});

function mapOf(text: string): MapNode {
  return parse(text).root as MapNode;
}

function at(root: MapNode, ...path: (string | number)[]): { shape: Shape; node: Node } {
  let shape = rootShape('system');
  let node: Node = root;
  for (const key of path) {
    if (node.kind !== 'map' && node.kind !== 'list') throw new Error(`nothing stands below ${key}`);
    shape = shapeOf(shape, node, key)!;
    node = node.kind === 'list' ? node.items[Number(key)]! : find(node, String(key))!.value;
  }
  return { shape, node };
}

/** Every shape that can stand in a file, each once. */
function* shapesBelow(shape: Shape, seen = new Set<Shape>()): Generator<Shape> {
  if (seen.has(shape)) return;
  seen.add(shape);
  for (const map of shape.maps) {
    for (const { shape: below } of map.keys.values()) {
      yield below;
      yield* shapesBelow(below, seen);
    }
    if (map.others) {
      yield map.others;
      yield* shapesBelow(map.others, seen);
    }
  }
  if (shape.list) {
    yield shape.list.items;
    yield* shapesBelow(shape.list.items, seen);
  }
}

/** A snippet as it stands when the author has gone through it and changed nothing. */
function filledIn(snippet: string): string {
  return snippet
    .replace(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\{ \$\d+ \}/g, '{}')
    .replace(/\$\d+/g, 'word')
    .replaceAll('\t', '  ');
}
