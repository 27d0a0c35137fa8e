import { formatQuantity } from '../../base/quantity/format.ts';
import type { ParallelPath } from '../electrical.ts';

/** More names than this say no more than that there are others. */
const mostNamed = 4;

/** `also reads through K3's coil; S6 alone has 18 kΩ`. */
export function parallelInWords({ meant, through, aloneOhms }: ParallelPath): string {
  return `also reads through ${throughInWords(through)}; \`${meant}\` alone ${aloneInWords(aloneOhms)}`;
}

/** `K3's coil and R2`. */
export function throughInWords(through: readonly string[]): string {
  const shown = through.length > mostNamed ? through.slice(0, mostNamed - 1) : through;
  const rest = through.length - shown.length;
  const names = shown.map(quoted);
  if (rest > 0) names.push(`${rest} more`);
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

export function aloneInWords(ohms: number): string {
  return Number.isFinite(ohms) ? `has ${formatQuantity(ohms, 'resistance')}` : 'is open';
}

function quoted(name: string): string {
  const cut = name.indexOf("'s ");
  return cut < 0 ? `\`${name}\`` : `\`${name.slice(0, cut)}\`${name.slice(cut)}`;
}
