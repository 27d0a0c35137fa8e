/** Everything that can be reached from the starts along `next`, the starts included, in the order found. */
export function reachable<T>(starts: Iterable<T>, next: (node: T) => Iterable<T>): Set<T> {
  const found = new Set(starts);
  // A set hands out what is added while it is walked, so it is its own queue.
  for (const node of found) for (const after of next(node)) found.add(after);
  return found;
}

/** The same graph with every arrow turned round. */
export function reversed<T>(nodes: Iterable<T>, next: (node: T) => Iterable<T>): (node: T) => readonly T[] {
  const before = new Map<T, T[]>();
  for (const node of nodes) {
    for (const after of next(node)) {
      const list = before.get(after);
      if (list) list.push(node);
      else before.set(after, [node]);
    }
  }
  return node => before.get(node) ?? [];
}
