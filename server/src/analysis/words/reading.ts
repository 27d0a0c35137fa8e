import { formatRange } from '../../base/quantity/format.ts';
import type { MeterReading, NumberReading, Turn } from '../electrical.ts';
import { combinationInWords } from './combination.ts';

/** The combinations behind both ends of a range, a line each; none where nothing has a tolerance. */
export function endsInWords(reading: NumberReading): string[] {
  const { dimension, attained, exact, lowAt, highAt } = reading;
  const [lowest, highest] = [combinationInWords(lowAt), combinationInWords(highAt)];
  return [
    exact ? '' : `${formatRange(attained.low, attained.high, dimension)} is reached by a combination that can be named`,
    lowest && `lowest with ${lowest}`,
    highest && `highest with ${highest}`,
  ].filter(line => line !== '');
}

/** Why the meter shows no number; empty for a number, for `OL`, and where a lead cannot be put. */
export function whyNoNumber(reading: MeterReading): string {
  switch (reading.state) {
    case 'floating':
      return reading.lead === 'both'
        ? 'both leads touch nothing that is tied down'
        : `the ${reading.lead} lead touches nothing that is tied down`;
    case 'live':
      return `${reading.supplies.join(', ')} drives current between the leads; resistance is measured on a dead circuit`;
    case 'not computed':
      return `the behaviour of ${reading.parts.join(', ')} is not computed`;
    case 'not settled':
      return circleInWords(reading.circle);
    case 'no solution':
      return `${reading.names.join(', ')} cannot be as they are wired`;
    default:
      return '';
  }
}

/** `` `K1` comes on, so `K2` goes off, so `K1` goes off, and round again ``. */
export function circleInWords(circle: readonly Turn[]): string {
  return `${circle.map(({ name, on }) => `\`${name}\` ${on ? 'comes on' : 'goes off'}`).join(', so ')}, and round again`;
}
