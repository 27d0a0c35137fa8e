/** Where a function that rises or falls throughout crosses zero between `from` and `to`; nothing where it does not. */
export function rootIn(from: number, to: number, f: (x: number) => number): number | undefined {
  const [start, end] = [f(from), f(to)];
  if (!(start * end <= 0)) return undefined;
  let [low, high] = start <= end ? [from, to] : [to, from];
  // Halving ends when no number lies between the two any more.
  for (;;) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) return middle;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
}
