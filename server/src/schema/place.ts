import type { ListNode, MapNode } from '../syntax/tree.ts';
import { chosenMaps, keyIn, kindShape } from './choose.ts';
import type { MapShape, Shape, ValueDoc } from './shape.ts';
import { snippetOf } from './snippet.ts';

/** The shape of what stands under a key or at a place of a list; nothing where the key is not known there. */
export function shapeOf(parent: Shape, parentNode: MapNode | ListNode, key: string | number): Shape | undefined {
  if (parentNode.kind === 'list') return parent.list?.items;
  if (typeof key === 'number') return undefined;
  if (parent.chosenBy === 'kind' && key === 'kind') return kindShape(parent);
  for (const map of mapsOf(parent, parentNode)) {
    const shape = keyIn(map, key)?.shape ?? map.others;
    if (shape) return shape;
  }
  return undefined;
}

/** One key that can stand in a map. */
export interface KeyInfo {
  readonly key: string;
  readonly title: string;
  readonly description: string;
  readonly required: boolean;
  /** The value in snippet syntax; it begins with a line break where it takes lines of its own. */
  readonly snippet: string;
}

/**
 * The keys that can stand in this map, those already there included, in the order of the schema. As long as a part has no
 * kind or a step no action, they are the keys that every kind has, and those by which to choose.
 */
export function keysOf(shape: Shape, node: MapNode): readonly KeyInfo[] {
  const chosen = chosenMaps(shape, node);
  if (chosen.length > 0) return infos(chosen[0]!, shape);
  const [first, ...others] = shape.maps;
  if (!first) return [];
  const selectors = shape.chosenBy === 'kind' ? [] : shape.maps.flatMap(map => infos(map, shape).slice(0, 1));
  const common = infos(first, shape).filter(({ key }) => others.every(map => map.keys.has(key)));
  return [...selectors, ...common];
}

/** The texts that can stand at this place, for a list those of its items. */
export function valuesOf(shape: Shape): readonly ValueDoc[] {
  return shape.text?.values ?? shape.list?.items.text?.values ?? [];
}

function mapsOf(shape: Shape, node: MapNode): readonly MapShape[] {
  const chosen = chosenMaps(shape, node);
  return chosen.length > 0 ? chosen : shape.maps;
}

function infos(map: MapShape, owner: Shape): readonly KeyInfo[] {
  return [...map.keys.values()].map(({ key, required, shape }) => {
    const value = owner.chosenBy === 'kind' && key === 'kind' && owner.maps.length > 1 ? kindShape(owner) : shape;
    const { title, description } = value;
    return { key, title, description, required, snippet: snippetOf(value) };
  });
}
