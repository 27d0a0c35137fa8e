import { formatQuantity } from '../../base/quantity/format.ts';
import type { PartValue } from '../../circuit/reading.ts';
import type { System } from '../../model/system.ts';

/** The others move the reading less, or not enough to be worth a reader's time. */
const mostNamed = 5;

/** The values behind one end of a reading, the most important first: `` `G1` at 12.3 V, `R1` at 121 Ω ``. */
export function combinationInWords(values: readonly PartValue[], system: System): string {
  const named = values
    .slice(0, mostNamed)
    .map(({ id, value }) => `\`${id}\` at ${formatQuantity(value, dimensionOfValue(id, system))}`);
  const rest = values.length - named.length;
  return rest > 0 ? `${named.join(', ')} and ${rest} more` : named.join(', ');
}

/** Volts of supplies, of those inside a module, and of the drops of diodes; everything else that has a tolerance is a resistance. */
export function dimensionOfValue(id: string, system: System): 'voltage' | 'resistance' {
  const kind = system.parts.get(id)?.data.kind;
  const isSource = kind === 'battery' || kind === 'supply' || / (rail( \(\d+\))?|drop)$|\.\S+ output$/.test(id);
  return isSource ? 'voltage' : 'resistance';
}
