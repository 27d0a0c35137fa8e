import type { Limit } from '../base/quantity/limit.ts';
import type { Match } from './step.ts';

/** A stretch of readings; a reading over the meter's limit counts as +∞ and belongs to it where `overLimit` says so. */
export type Region = Pick<Limit, 'low' | 'high' | 'lowOpen' | 'highOpen' | 'overLimit'>;

/** The readings that a branch takes; undefined for `otherwise` and where the limits it refers to are not known. */
export function regionOf(match: Match, limit: Limit | undefined): Region | undefined {
  switch (match.on) {
    case 'limit':
      return match.limit;
    case 'within':
      return limit;
    case 'below':
      return limit && { ...everything, high: limit.low, highOpen: !limit.lowOpen, overLimit: false };
    case 'above':
      return limit && { ...everything, low: limit.high, lowOpen: !limit.highOpen, overLimit: !limit.overLimit };
    default:
      return undefined;
  }
}

export const everything: Region = { low: -Infinity, high: Infinity, lowOpen: false, highOpen: false, overLimit: true };

/** Whether the region takes a reading; +∞ stands for one over the meter's limit. */
export function takes({ low, high, lowOpen, highOpen, overLimit }: Region, value: number): boolean {
  if (value === Infinity) return overLimit;
  return (lowOpen ? value > low : value >= low) && (highOpen ? value < high : value <= high);
}
