/** What the current of a 4 to 20 mA loop says. */
export type LoopState = 'failure low' | 'saturated low' | 'measuring' | 'saturated high' | 'failure high';

/**
 * The state of a loop by its current in amperes: measuring from 3.8 mA to 20.5 mA, a failure below 3.6 mA and above 21 mA, and in
 * between at the end of what the transmitter can say. Source: NAMUR NE 43, as quoted in several programs that apply it.
 */
export function loopState(amps: number): LoopState {
  if (amps < loopBands.failureLow) return 'failure low';
  if (amps < loopBands.measuringFrom) return 'saturated low';
  if (amps <= loopBands.measuringTo) return 'measuring';
  return amps <= loopBands.failureHigh ? 'saturated high' : 'failure high';
}

/** The ends of the bands of NE 43, in amperes. */
export const loopBands = {
  failureLow: 0.0036,
  measuringFrom: 0.0038,
  measuringTo: 0.0205,
  failureHigh: 0.021,
} as const;
