import type { LeadReason, MeterReading, NumberReading } from '../analysis/electrical.ts';
import type { Fault } from '../analysis/faults/fault.ts';
import { rangeInWords } from '../analysis/readings.ts';
import { endsInWords, whyNoNumber } from '../analysis/words/reading.ts';
import { formatQuantity } from '../base/quantity/format.ts';
import { extentInWords } from './faults-text.ts';
import { harmless } from './paint.ts';

/** A reading for a reader at a terminal, the range first and below it what is behind its ends. */
export function readingAsText(reading: MeterReading): string {
  return lines(reading).map(harmless).join('\n');
}

/** What is wrong with the machine that was read, and which fuses it has blown: `with W8 short to ground, which blows F7`. */
export function faultInWords({ id, extent }: Fault, blown: readonly string[]): string {
  const far = extent ? ` (${extentInWords(extent)})` : '';
  const then = blown.length > 0 ? `, which blows ${blown.join(' and ')}` : '';
  return harmless(`with ${id}${far}${then}`);
}

function lines(reading: MeterReading): string[] {
  const shown = rangeInWords(reading);
  switch (reading.state) {
    case 'number':
      return [numbers(reading, shown), ...endsInWords(reading)];
    case 'over limit':
      return [shown, 'no path between the leads, or more ohms than the meter can show'];
    case 'no contact':
      return [
        shown,
        `${reading.lead === 'around' ? 'the clamp' : `the ${reading.lead} lead`}: ${whyNoContact[reading.reason.kind]}`,
      ];
    default:
      return [shown, whyNoNumber(reading)];
  }
}

function numbers({ nominal, dimension }: NumberReading, shown: string): string {
  const middle = formatQuantity(nominal, dimension);
  return middle === shown ? shown : `${shown}, nominal ${middle}`;
}

const whyNoContact: Record<LeadReason['kind'], string> = {
  'unknown point': 'this variant has no such place',
  'not in this variant': 'this variant does not have the point',
  'which side': 'the plug is apart, and it is not said which side is meant',
  'unknown side': 'the plug has no such side',
  mated: 'the plug is mated',
};
