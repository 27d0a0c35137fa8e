import { describe, expect, it } from 'vitest';
import { rootShape } from '../../server/src/schema/root.ts';
import type { MapShape, Shape } from '../../server/src/schema/shape.ts';
import { written } from '../../server/src/schema/words.ts';
import { kinds } from './support.ts';

describe('the page of all keys', () => {
  it('is the one that was read in review', async () => {
    await expect(kinds.map(kind => section(kind)).join('\n')).toMatchFileSnapshot('golden/keys.md');
  });
});

function section(kind: (typeof kinds)[number]): string {
  const maps = new Map<string, MapShape>();
  // Of an answer the first has all keys: where something is measured or read it has fewer.
  for (const map of mapsBelow(rootShape(kind))) if (!maps.has(map.title)) maps.set(map.title, map);
  return `# Keys of a ${kind} file\n\n${[...maps.values()].map(chapter).join('\n')}`;
}

function chapter(map: MapShape): string {
  const keys = [...map.keys.values(), ...map.beginnings.values()].map(({ key, required, shape }) => {
    const values = shape.text?.values?.map(({ value }) => `\`${value}\``).join(', ');
    const example = shape.examples.length > 0 ? `\`${key}: ${written(shape.examples[0])}\`` : '';
    const shown = values ? `One of ${values}.` : example;
    return `- \`${key}\`${required ? ' (required)' : ''} ${[shape.description, shown].filter(Boolean).join(' ')}`;
  });
  return `## ${map.title}\n\n${map.description}\n\n${keys.join('\n')}\n`;
}

/** Every map with keys of its own, from the outside in. What differs by variant has the keys of its owner. */
function* mapsBelow(shape: Shape, seen = new Set<Shape>()): Generator<MapShape> {
  if (seen.has(shape)) return;
  seen.add(shape);
  for (const map of shape.maps) {
    if (map.title && map.keys.size > 0) yield map;
    for (const { key, shape: below } of map.keys.values()) if (key !== 'by variant') yield* mapsBelow(below, seen);
    if (map.others) yield* mapsBelow(map.others, seen);
  }
  if (shape.list) yield* mapsBelow(shape.list.items, seen);
}
