/** How a procedure ends for one fault. */
export interface Diagnosed {
  /** How likely it is against the others, 0 or more: a failure rate, for example. */
  readonly weight: number;
  /** How many owners are named at its ending, the right one among them; none where the fault is not detected. */
  readonly groupSize?: number;
}

/** A part of a whole, as a count of faults and as a sum of their weights. The fraction is `part / whole`, 0 where the whole is 0. */
export interface Fraction {
  readonly counted: Ratio;
  readonly weighted: Ratio;
}

export interface Ratio {
  readonly part: number;
  readonly whole: number;
  readonly fraction: number;
}

export interface Figures {
  /** Faults detected, of all faults. */
  readonly detected: Fraction;
  /**
   * For each size from 1 to the largest group, the faults that are isolated to a group of at most this size. Sources differ in what
   * they divide by, so both are given: by the faults detected, and by all faults.
   */
  readonly isolated: readonly { readonly groupSize: number; readonly ofDetected: Fraction; readonly ofAll: Fraction }[];
  /** Mean size of a group over the faults detected; nothing where none is. */
  readonly meanGroupSize?: { readonly counted: number; readonly weighted: number };
}

/**
 * Fraction of faults detected and fraction of faults isolated, in the sense of IEEE Std 1522, each unweighted and weighted by how likely
 * the faults are, with what is divided by what.
 */
export function figuresOf(faults: readonly Diagnosed[]): Figures {
  const detected = faults.filter(fault => fault.groupSize !== undefined);
  const largest = Math.max(0, ...detected.map(fault => fault.groupSize!));
  const isolated = Array.from({ length: largest }, (_, i) => {
    const within = detected.filter(fault => fault.groupSize! <= i + 1);
    return { groupSize: i + 1, ofDetected: fractionOf(within, detected), ofAll: fractionOf(within, faults) };
  });
  return { detected: fractionOf(detected, faults), isolated, meanGroupSize: meanSize(detected) };
}

function fractionOf(part: readonly Diagnosed[], whole: readonly Diagnosed[]): Fraction {
  return { counted: ratio(part.length, whole.length), weighted: ratio(weightOf(part), weightOf(whole)) };
}

function ratio(part: number, whole: number): Ratio {
  return { part, whole, fraction: whole === 0 ? 0 : part / whole };
}

function meanSize(detected: readonly Diagnosed[]): Figures['meanGroupSize'] {
  if (detected.length === 0) return undefined;
  const sizes = detected.map(fault => fault.groupSize!);
  const counted = sizes.reduce((sum, size) => sum + size, 0) / sizes.length;
  const weight = weightOf(detected);
  const weighted = detected.reduce((sum, fault) => sum + fault.weight * fault.groupSize!, 0);
  return { counted, weighted: weight === 0 ? counted : weighted / weight };
}

function weightOf(faults: readonly Diagnosed[]): number {
  return faults.reduce((sum, fault) => sum + fault.weight, 0);
}
