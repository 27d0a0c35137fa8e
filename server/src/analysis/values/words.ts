import { tidy } from '../../base/quantity/decimal.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import { meterAmount } from '../../base/quantity/meter-amount.ts';
import type { MeterReading, NumberReading } from '../electrical.ts';
import { rangeInWords } from '../readings.ts';
import { tableMeter } from './meter.ts';
import type { LeftOut, StateOf, ValuesTable } from './table.ts';

/** `key: run, S6: on`, as the file sets them; `at rest` where nothing is set. */
export function statesInWords(states: readonly StateOf[]): string {
  return states.length === 0 ? 'at rest' : states.map(({ name, state }) => `${name}: ${state}`).join(', ');
}

/** The range over all tolerances, and the value without any where it is another; what is too small for the meter is told as such. */
export function valueInWords(reading: MeterReading): { range: string; nominal: string } {
  if (reading.state !== 'number') return { range: rangeInWords(reading), nominal: '' };
  const small = smallInWords(reading);
  if (small !== undefined) return { range: small, nominal: '' };
  const range = rangeInWords(reading);
  const middle = formatQuantity(reading.nominal, reading.dimension);
  return { range, nominal: middle === range ? '' : middle };
}

/** A voltage that no digit of the meter shows, or a resistance that its leads and last digit hide. */
function smallInWords({ low, high, dimension }: NumberReading): string | undefined {
  if (dimension === 'resistance') {
    const { resolution, leadsOhms } = tableMeter.resistance;
    if (low >= resolution || high > leadsOhms + 1) return undefined;
    return `at most ${meterAmount(tidy(Math.ceil(tidy(high / resolution)) * resolution), dimension)}`;
  }
  const { resolution } = tableMeter.voltage;
  const largest = Math.max(Math.abs(low), Math.abs(high));
  if (largest === 0) return '0 V';
  return largest < resolution ? `below ${formatQuantity(resolution, dimension)}` : undefined;
}

/** How the voltages are measured. */
export function voltagesInWords({ black, operating }: ValuesTable): string {
  if (black === undefined) return 'There is no ground and no supply to measure voltages against.';
  const set = operating.length === 0 ? 'Everything at rest' : `Set ${statesInWords(operating)}, all else at rest`;
  return `${set} and plugged together. Black lead on ${black}, red lead in from behind the plug.`;
}

/** How the resistances are measured. */
export function resistancesInWords(): string {
  const { leadsOhms } = tableMeter.resistance;
  const leads = meterAmount(leadsOhms, 'resistance');
  return `The plug of the part off, both leads on its terminals, all else at rest. Leads that were not zeroed add up to ${leads}.`;
}

/** Why a state may be missing from a line. */
export const onlyWhatMatters = 'A state that is not listed changes nothing there that the meter can tell.';

/** What a bounded table does not hold, a sentence each. */
export function leftOutInWords({ points, states, parts }: LeftOut): string[] {
  const sentences: string[] = [];
  if (states.length > 0)
    sentences.push(`Not looked at, as the system is large: ${shortened(states.map(s => statesInWords([s])))}.`);
  if (points.length > 0) sentences.push(`Not measured, as the system is large: ${shortened(points)}.`);
  if (parts.length > 0) sentences.push(`The resistance is not computed of ${shortened(parts)}.`);
  return sentences;
}

/** More names than this say no more than their number. */
const mostNamed = 8;

function shortened(names: readonly string[]): string {
  const rest = names.length - mostNamed;
  return rest > 0 ? `${names.slice(0, mostNamed).join(', ')} and ${rest} more` : names.join(', ');
}
