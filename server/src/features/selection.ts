import { pathAt } from '../syntax/path.ts';
import type { SyntaxTree } from '../syntax/tree.ts';
import type { Stretch } from './project.ts';

/** Ever larger stretches around an offset: the value, its entry, the map that holds it, and so on; the smallest first. */
export function selectionRanges(tree: SyntaxTree, offset: number): Stretch[] {
  const stretches: Stretch[] = [];
  for (const { node, entry } of pathAt(tree, offset)) {
    if (entry) stretches.push(tree.absolute(entry.span));
    stretches.push(tree.absolute(node.span));
  }
  const around = stretches.filter(({ start, end }) => start <= offset && offset <= end && end > start).reverse();
  return around.filter(({ start, end }, i) => i === 0 || start < around[i - 1].start || end > around[i - 1].end);
}
