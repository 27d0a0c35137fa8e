import type { PartValue } from './naming.ts';
import type { TopologyProblem } from './topology.ts';

/** What a meter shows over all tolerances. Volts, ohms or amperes. */
export type Reading =
  | NumberReading
  /** OL: no path between the leads, or more ohms than the meter can show. */
  | { state: 'over-limit'; why: 'no path' | 'above range' }
  /** The lead touches something that nothing ties to the other lead, so the reading is not defined. */
  | { state: 'floating'; lead: 'red' | 'black' | 'both' }
  | { state: 'unsolvable'; problems: TopologyProblem[] };

export interface NumberReading {
  state: 'number';
  /** No combination inside the tolerances reads below `low` or above `high`. */
  low: number;
  nominal: number;
  high: number;
  /** Ends that the combinations named in `lowAt` and `highAt` reach. */
  attained: { low: number; high: number };
  /** The enclosing ends are the attained ones. */
  exact: boolean;
  /** The elements with width that matter, the most influential first. All others may take any value of their range. */
  lowAt: PartValue[];
  highAt: PartValue[];
}

/** One end of a reading: what a named combination reaches, and what none passes. */
export interface End {
  attained: number;
  bound: number;
  at: PartValue[];
}

/** A bound that is not attained is moved outwards by this part of itself, against rounding. */
const OUTWARD = 1e-12;

export function numberReading(nominal: number, low: End, high: End): NumberReading {
  const sharp = low.attained === low.bound && high.attained === high.bound;
  return {
    state: 'number',
    // The nominal values are a combination too; rounding must not leave them a digit outside.
    low: Math.min(nominal, outward(low, -1)),
    nominal,
    high: Math.max(nominal, outward(high, 1)),
    attained: { low: Math.min(nominal, low.attained), high: Math.max(nominal, high.attained) },
    exact: sharp,
    lowAt: low.at,
    highAt: high.at,
  };
}

function outward({ attained, bound }: End, direction: number): number {
  return attained === bound ? bound : bound + direction * OUTWARD * Math.abs(bound);
}
