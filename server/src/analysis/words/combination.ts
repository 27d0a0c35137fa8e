import { formatQuantity } from '../../base/quantity/format.ts';
import type { PartValue } from '../../circuit/reading.ts';

/** The others move the reading less, or not enough to be worth a reader's time. */
const mostNamed = 5;

/** The values behind one end of a reading, the most important first: `` `G1` at 12.3 V, `R1` at 121 Ω ``. */
export function combinationInWords(values: readonly PartValue[]): string {
  const named = values.slice(0, mostNamed).map(({ id, kind, value }) => `\`${id}\` at ${formatQuantity(value, kind)}`);
  const rest = values.length - named.length;
  return rest > 0 ? `${named.join(', ')} and ${rest} more` : named.join(', ');
}
