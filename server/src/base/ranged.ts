/** A value and the ends it may take: `low <= nominal <= high`, in SI units. */
export interface Ranged {
  low: number;
  nominal: number;
  high: number;
}

/** A value that is known without tolerance. */
export function exact(value: number): Ranged {
  return { low: value, nominal: value, high: value };
}

export function isExact(range: Ranged): boolean {
  return range.low === range.high;
}

/** A nominal value with a relative tolerance: `within(4700, 0.05)` is 4.7 kohm ± 5 %. */
export function within(nominal: number, relativeTolerance: number): Ranged {
  const reach = Math.abs(nominal) * relativeTolerance;
  return { low: nominal - reach, nominal, high: nominal + reach };
}

/** True for finite ends in order. */
export function isOrdered(range: Ranged): boolean {
  const finite = Number.isFinite(range.low) && Number.isFinite(range.nominal) && Number.isFinite(range.high);
  return finite && range.low <= range.nominal && range.nominal <= range.high;
}
