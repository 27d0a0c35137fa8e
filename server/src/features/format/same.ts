import type { Node } from '../../syntax/tree.ts';

/** True where two files say the same, wherever it stands. */
export function saysTheSame(a: Node, b: Node): boolean {
  if (a.kind === 'scalar' && b.kind === 'scalar') return a.text === b.text && a.quoted === b.quoted;
  if (a.kind === 'list' && b.kind === 'list')
    return a.items.length === b.items.length && a.items.every((item, i) => saysTheSame(item, b.items[i]));
  if (a.kind === 'map' && b.kind === 'map')
    return (
      a.entries.length === b.entries.length &&
      a.entries.every(({ key, value }, i) => {
        const other = b.entries[i];
        return key.text === other.key.text && saysTheSame(value, other.value);
      })
    );
  return a.kind === 'empty' && b.kind === 'empty';
}
