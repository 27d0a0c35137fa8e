import { find, type MapNode } from '../syntax/tree.ts';
import { meantKey } from './meant.ts';
import type { Key, MapShape, Shape } from './shape.ts';

/**
 * Which of several maps is meant: by the value of `kind`, or by the keys that are there. Two where the author wrote the key of
 * both; none where nothing tells. A key that is nearly right counts, so that a slip of the pen costs one message only.
 */
export function chosenMaps(shape: Shape, node: MapNode): readonly MapShape[] {
  if (shape.maps.length < 2) return shape.maps;
  if (shape.chosenBy === 'kind') {
    const kind = find(node, 'kind')?.value;
    return kind?.kind === 'scalar' ? shape.maps.filter(map => map.selector === kind.text) : [];
  }
  const exact = node.entries.flatMap(({ key }) => shape.maps.find(map => map.selector === key.text) ?? []);
  if (exact.length > 0) return [...new Set(exact)];
  for (const { key } of node.entries) {
    if (shape.maps.some(map => map.keys.has(key.text))) continue;
    const meant = meantKey(key.text, shape.maps);
    const near = shape.maps.find(map => map.selector === meant);
    if (near) return [near];
  }
  return [];
}

/** The keys, or values of `kind`, that choose these maps. */
export function selectorsOf(maps: readonly MapShape[]): string[] {
  return maps.map(({ selector }) => selector ?? '');
}

/** The key of that name, or the one known by its beginning. */
export function keyIn(map: MapShape, name: string): Key | undefined {
  const exact = map.keys.get(name);
  if (exact) return exact;
  for (const [beginning, key] of map.beginnings) {
    if (name.startsWith(beginning)) return key;
  }
  return undefined;
}

/** The shape of `kind` itself, where it chooses among several maps. */
export function kindShape(shape: Shape): Shape {
  const before = kindShapes.get(shape);
  if (before) return before;
  const own = shape.maps[0]!.keys.get('kind')!.shape;
  const values = shape.maps.map(map => ({ value: map.selector ?? '', description: map.description }));
  const otherWords = new Map(
    shape.maps.flatMap(map => map.otherWords.map(word => [word, map.selector ?? ''] as const)),
  );
  const whole: Shape = {
    ...own,
    title: `kind of ${shape.title}`,
    examples: values.slice(0, 1).map(({ value }) => value),
    text: { ...own.text!, values, otherWords },
  };
  kindShapes.set(shape, whole);
  return whole;
}

const kindShapes = new WeakMap<Shape, Shape>();
