import type { NumberReading } from '../../analysis/electrical.ts';
import { combinationInWords } from '../../analysis/words/combination.ts';
import type { Fix } from '../../base/finding.ts';
import { formatEnds, formatRange } from '../../base/quantity/format.ts';
import { deriveLimits } from '../fixes.ts';
import type { HeldAgainst } from './judged.ts';
import { numbers } from './judged.ts';

/** `4.51 V .. 4.72 V`, rounded outward so that it holds the circuit's whole range. */
export function rangeOf({ low, high, dimension }: NumberReading): string {
  return formatRange(low, high, dimension, 'outward');
}

/** One end that some combination reaches, rounded as in the range, so that the two never seem to differ. */
export function endOf({ attained, dimension }: NumberReading, end: 'low' | 'high'): string {
  const [from, to] = formatEnds(attained.low, attained.high, dimension, 'outward');
  return end === 'low' ? from : to;
}

/** One end with the combination that gives it: `12.2 V with `G1` at 12.2 V`. */
export function endInWords(reading: NumberReading, end: 'low' | 'high'): string {
  const value = endOf(reading, end);
  const words = combinationInWords(end === 'low' ? reading.lowAt : reading.highAt);
  return words === '' ? value : `${value} with ${words}`;
}

/** Writes the circuit's own range over all variants and situations in place of the limits, or leaves them to the circuit. */
export function useTheCircuit({ specified, outcomes }: HeldAgainst): readonly Fix[] {
  const readings = numbers(outcomes).map(o => o.reading);
  const [first] = readings;
  if (!specified || !first || readings.length < outcomes.length) return [];
  const low = Math.min(...readings.map(r => r.low));
  const high = Math.max(...readings.map(r => r.high));
  const text = formatRange(low, high, first.dimension, 'outward');
  const { place } = specified;
  const typed = { title: `Use the circuit's range \`${text}\``, edits: [{ place, text }] };
  return [...(text.includes(' .. ') ? [typed] : []), ...deriveLimits(place)];
}
