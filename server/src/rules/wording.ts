import { name } from '../base/name.ts';

export { name } from '../base/name.ts';

/** `` `a`, `b` and `c` ``; of a long list the first ones and how many more. */
export function named(names: readonly string[], most = 4): string {
  const shown = names.length > most ? names.slice(0, most - 1) : names;
  const quoted = shown.map(n => name(n));
  if (shown.length < names.length) quoted.push(`${names.length - shown.length} more`);
  return joined(quoted);
}

/** `a, b and c`. */
export function joined(parts: readonly string[], word = 'and'): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} ${word} ${parts.at(-1)}`;
}

/** `` in variant `relay-fed` `` after a blank, or nothing where all variants are meant. */
export function inVariants(some: readonly string[], all: readonly string[]): string {
  if (some.length >= all.length) return '';
  return ` in ${some.length === 1 ? 'variant' : 'variants'} ${named(some)}`;
}

/** `1 step`, `3 steps`. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
