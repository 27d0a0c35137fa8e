/** A pivot that keeps less than this part of what met in its row has lost too many digits. */
export const LEAST_KEPT = 1e-4;

/**
 * Solves `A x = b` for a handful of unknowns, by elimination with the pivot row that lost least. `scale[i]` is the size of the numbers
 * that were added up in row `i`: where a pivot is small against it, digits have cancelled, and nothing is returned.
 */
export function solveSmall(
  a: readonly Float64Array[],
  b: Float64Array,
  scale: ArrayLike<number>,
): Float64Array | undefined {
  const size = b.length;
  const x = Float64Array.from(b);
  const rows = a.map(row => row.slice());
  const order = Array.from(rows.keys());
  for (let step = 0; step < size; step++) {
    const kept = (at: number) => Math.abs(rows[order[at]!]![step]!) / scale[order[at]!]!;
    let best = step;
    for (let at = step + 1; at < size; at++) if (kept(at) > kept(best)) best = at;
    if (!(kept(best) >= LEAST_KEPT)) return undefined;
    [order[step], order[best]] = [order[best]!, order[step]!];
    const head = rows[order[step]!]!;
    for (let at = step + 1; at < size; at++) {
      const row = rows[order[at]!]!;
      const factor = row[step]! / head[step]!;
      for (let column = step; column < size; column++) row[column]! -= factor * head[column]!;
      x[order[at]!]! -= factor * x[order[step]!]!;
    }
  }
  const solution = new Float64Array(size);
  for (let step = size - 1; step >= 0; step--) {
    const row = rows[order[step]!]!;
    let sum = x[order[step]!]!;
    for (let column = step + 1; column < size; column++) sum -= row[column]! * solution[column]!;
    solution[step] = sum / row[step]!;
  }
  return solution;
}
