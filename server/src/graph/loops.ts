/**
 * The loops of a directed graph: sets of nodes each of which leads to every other one of its set, and single nodes
 * that lead to themselves. Nodes keep the order of `nodes` inside a loop; loops are ordered by their first node.
 *
 * Tarjan's algorithm (Depth-first search and linear graph algorithms, SIAM J. Comput. 1972), with a stack of its own
 * because a procedure of some thousand steps in a row would exhaust the one of the language.
 */
export function loops<T>(nodes: Iterable<T>, next: (node: T) => Iterable<T>): T[][] {
  const order = new Map<T, number>();
  for (const node of nodes) order.set(node, order.size);
  const search = new Search(next, order);
  for (const node of order.keys()) search.from(node);
  const position = (node: T) => order.get(node) ?? 0;
  for (const loop of search.loops) loop.sort((a, b) => position(a) - position(b));
  return search.loops.sort((a, b) => position(a[0]!) - position(b[0]!));
}

interface Visit<T> {
  readonly node: T;
  readonly number: number;
  /** Smallest number of an open node that this one leads back to. */
  low: number;
  readonly rest: Iterator<T>;
}

class Search<T> {
  readonly loops: T[][] = [];
  private readonly visits = new Map<T, Visit<T>>();
  /** Nodes entered whose set is not closed yet, in the order entered. */
  private readonly open: T[] = [];
  private readonly closed = new Set<T>();
  private readonly path: Visit<T>[] = [];
  private readonly next: (node: T) => Iterable<T>;
  private readonly known: { has(node: T): boolean };

  constructor(next: (node: T) => Iterable<T>, known: { has(node: T): boolean }) {
    this.next = next;
    this.known = known;
  }

  from(root: T): void {
    if (this.visits.has(root)) return;
    this.enter(root);
    for (let at = this.path.at(-1); at; at = this.path.at(-1)) {
      const step = at.rest.next();
      if (step.done) this.leave(at);
      else if (this.known.has(step.value)) this.follow(at, step.value);
    }
  }

  private enter(node: T): void {
    const number = this.visits.size;
    const visit = { node, number, low: number, rest: this.next(node)[Symbol.iterator]() };
    this.visits.set(node, visit);
    this.open.push(node);
    this.path.push(visit);
  }

  private follow(at: Visit<T>, to: T): void {
    const seen = this.visits.get(to);
    if (!seen) this.enter(to);
    else if (!this.closed.has(to)) at.low = Math.min(at.low, seen.number);
  }

  private leave(at: Visit<T>): void {
    this.path.pop();
    const before = this.path.at(-1);
    if (before) before.low = Math.min(before.low, at.low);
    if (at.low === at.number) this.close(at.node);
  }

  /** The open nodes from this one on form a set of their own. */
  private close(first: T): void {
    const members = this.open.splice(this.open.lastIndexOf(first));
    for (const node of members) this.closed.add(node);
    if (members.length > 1 || leadsToItself(first, this.next)) this.loops.push(members);
  }
}

function leadsToItself<T>(node: T, next: (node: T) => Iterable<T>): boolean {
  for (const after of next(node)) if (after === node) return true;
  return false;
}
