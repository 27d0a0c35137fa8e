import type { FileView } from '../../analysis/view.ts';
import { shapeOf } from '../../schema/place.ts';
import { type FileKind, fileKindOf, rootShape } from '../../schema/root.ts';
import type { Shape } from '../../schema/shape.ts';
import { type PathItem, pathAt } from '../../syntax/path.ts';
import type { SyntaxTree } from '../../syntax/tree.ts';

/** A node on the way from the root to the cursor, with what may stand there; no shape for a key, or below one that is not known. */
export interface Station extends PathItem {
  readonly shape?: Shape;
  /** Under a key of the author's own choice. */
  readonly isOther: boolean;
}

/** The way from the root of a file to an offset. */
export function trailTo(view: FileView, offset: number): Station[] {
  const kind = fileKindOf(view.uri);
  return kind ? walk(kind, view.tree, offset) : [];
}

function walk(kind: FileKind, tree: SyntaxTree, offset: number): Station[] {
  const stations: Station[] = [];
  for (const item of pathAt(tree, offset)) {
    const before = stations.at(-1);
    if (!before) stations.push({ ...item, shape: rootShape(kind), isOther: false });
    else stations.push({ ...item, ...reached(before, item) });
  }
  return stations;
}

function reached({ node, shape }: Station, item: PathItem): Pick<Station, 'shape' | 'isOther'> {
  const key = item.entry?.key.text ?? item.index;
  const isKey = item.entry !== undefined && item.node === item.entry.key;
  if (isKey || !shape || key === undefined || (node.kind !== 'map' && node.kind !== 'list')) return { isOther: false };
  const found = shapeOf(shape, node, key);
  return { ...(found && { shape: found }), isOther: isOtherOf(shape, found) };
}

export function isOtherOf(parent: Shape, child: Shape | undefined): boolean {
  return child !== undefined && parent.maps.some(map => map.others === child);
}

/** The name under which the cursor stands in a map of the root: of `steps` the name of the step. */
export function nameUnder(trail: readonly Station[], section: string): string | undefined {
  return trail[1]?.entry?.key.text === section ? trail[2]?.entry?.key.text : undefined;
}
