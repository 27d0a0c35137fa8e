import { type Element, type Network, rangeOf } from '../../server/src/circuit/network.ts';
import type { Measurement } from '../../server/src/circuit/reading.ts';

/**
 * A second opinion on small networks, written another way than the product: modified nodal analysis of the part of the network that
 * the leads touch, dense, by elimination with row pivoting; sources and ideal resistances have their currents as unknowns. Values by
 * element id. A part that a fault has cut off is left out, as is what contradicts nothing but its own surroundings, where the product
 * gives no reading: a source whose ends are one node, one that closes a ring of sources, a current source without a way back. Not a
 * number where the leads stand on two parts, infinite for ohms.
 */
export function secondOpinion(network: Network, measurement: Measurement, at: ReadonlyMap<string, number>): number {
  const { nodeCount, joins } = network;
  switch (measurement.measure) {
    case 'voltage': {
      const { red, black, inputOhms } = measurement;
      const meter: Branch[] = Number.isFinite(inputOhms) ? [{ a: red, b: black, ohms: inputOhms, volts: 0 }] : [];
      const branches = [...branchesOf(network, at), ...meter];
      return solvePart({ nodeCount, joins, branches, injected: injections(network, at) }, red).volts(red, black);
    }
    case 'current': {
      const { red, black, burdenOhms } = measurement;
      const branches = [{ a: red, b: black, ohms: burdenOhms, volts: 0 }, ...branchesOf(network, at)];
      return solvePart({ nodeCount, joins, branches, injected: injections(network, at) }, red).amps(0);
    }
    case 'resistance': {
      const { red, black } = measurement;
      const dead = branchesOf(network, at).map(branch => ({ ...branch, volts: 0 }));
      const shorts = dead.filter(({ ohms }) => ohms === 0).map(({ a, b }) => [a, b] as const);
      const branches = dead.filter(({ ohms }) => ohms > 0);
      const injected = [{ from: black, to: red, amps: 1 }];
      const shown = solvePart({ nodeCount, joins: [...joins, ...shorts], branches, injected }, red).volts(red, black);
      return (Number.isNaN(shown) ? Number.POSITIVE_INFINITY : shown) + measurement.leadsOhms.nominal;
    }
    case 'clamp': {
      const index = network.elements.findIndex(({ id }) => id === measurement.element);
      const element = network.elements[index]!;
      if (element.kind === 'current') return chosen(element, at);
      const branches = branchesOf(network, at);
      const branch = network.elements.slice(0, index).filter(({ kind }) => kind !== 'current').length;
      const { a } = branches[branch]!;
      const amps = solvePart({ nodeCount, joins, branches, injected: injections(network, at) }, a).amps(branch);
      return element.kind === 'voltage' ? -amps : amps;
    }
  }
}

/** Whether anything but a current source leads from one node to the other. */
export function hangTogether(network: Network, a: number, b: number): boolean {
  const parts = new Labels(network.nodeCount);
  for (const [from, to] of network.joins) parts.tie(from, to);
  for (const branch of branchesOf(network, new Map())) parts.tie(branch.a, branch.b);
  return parts.of(a) === parts.of(b);
}

/** Whether a ring of ideal sources, an ideal meter among them, or a current source without a way back leaves no solution. */
export function contradictsItself(network: Network, measurement: Measurement): boolean {
  const held = new Labels(network.nodeCount);
  for (const [a, b] of network.joins) held.tie(a, b);
  const meter = measurement.measure === 'current' && measurement.burdenOhms === 0 ? [measurement] : [];
  const ideal = [
    ...meter.map(({ red, black }) => ({ a: red, b: black })),
    ...branchesOf(network, new Map()).filter(({ ohms }) => ohms === 0),
  ];
  for (const { a, b } of ideal) {
    if (held.of(a) === held.of(b)) return true;
    held.tie(a, b);
  }
  return injections(network, new Map()).some(({ from, to }) => !hangTogether(network, from, to));
}

/** `v(a) - v(b) = volts + ohms * current`, with the current from a to b. */
export interface Branch {
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
  readonly volts: number;
}

interface Injection {
  readonly from: number;
  readonly to: number;
  readonly amps: number;
}

export interface Plain {
  readonly nodeCount: number;
  readonly joins: readonly (readonly [number, number])[];
  readonly branches: readonly Branch[];
  readonly injected?: readonly Injection[];
}

export interface Point {
  /** Of one node above another; not a number where one of them hangs on another part. */
  volts(red: number, black: number): number;
  /** Through the branch at this place in the list, from `a` to `b`. */
  amps(branch: number): number;
}

/** The operating point of what hangs together with the node. */
export function solvePart({ nodeCount, joins, branches, injected = [] }: Plain, node: number): Point {
  const merged = new Labels(nodeCount);
  for (const [a, b] of joins) merged.tie(a, b);
  const parts = new Labels(nodeCount);
  for (const [a, b] of joins) parts.tie(a, b);
  for (const { a, b } of branches) parts.tie(a, b);
  const here = parts.of(node);

  // The node itself is the reference, and has no unknown.
  const unknown = new Map<number, number>([[merged.of(node), -1]]);
  const place = (of: number): number => {
    const label = merged.of(of);
    if (!unknown.has(label)) unknown.set(label, unknown.size - 1);
    return unknown.get(label)!;
  };
  const inside = branches.map(({ a }) => parts.of(a) === here);
  branches.forEach(({ a, b }, i) => {
    if (inside[i]) [a, b].map(place);
  });
  const currents = new Map<number, number>();
  const held = new Labels(nodeCount);
  let size = unknown.size - 1;
  branches.forEach(({ a, b, ohms }, i) => {
    if (!inside[i] || ohms > 0) return;
    const [p, q] = [merged.of(a), merged.of(b)];
    if (held.of(p) === held.of(q)) inside[i] = false;
    else currents.set(i, size++);
    held.tie(p, q);
  });

  const matrix = Array.from({ length: size }, () => new Float64Array(size + 1));
  const add = (row: number, column: number, value: number) => {
    if (row >= 0 && column >= 0) matrix[row]![column]! += value;
  };
  branches.forEach(({ a, b, ohms, volts }, i) => {
    if (!inside[i]) return;
    const [p, q] = [place(a), place(b)];
    if (p === q) return;
    const current = currents.get(i);
    for (const [mine, other, sign] of [
      [p, q, 1],
      [q, p, -1],
    ] as const) {
      if (current === undefined) {
        add(mine, mine, 1 / ohms);
        add(mine, other, -1 / ohms);
        add(mine, size, (sign * volts) / ohms);
      } else {
        add(mine, current, sign);
        add(current, mine, sign);
      }
    }
    if (current !== undefined) add(current, size, volts);
  });
  for (const { from, to, amps } of injected) {
    if (parts.of(from) !== here || parts.of(to) !== here) continue;
    add(place(from), size, -amps);
    add(place(to), size, amps);
  }
  const solution = eliminate(matrix, size);

  const potential = (of: number) => {
    if (parts.of(of) !== here) return Number.NaN;
    const at = place(of);
    return at < 0 ? 0 : solution[at]!;
  };
  return {
    volts: (red, black) => potential(red) - potential(black),
    amps(i) {
      const { a, b, ohms, volts } = branches[i]!;
      const current = currents.get(i);
      return current === undefined ? (potential(a) - potential(b) - volts) / ohms : solution[current]!;
    },
  };
}

/** Which nodes are one. */
export class Labels {
  readonly #parent: Int32Array;

  constructor(count: number) {
    this.#parent = Int32Array.from({ length: count }, (_, node) => node);
  }

  of(node: number): number {
    let top = node;
    while (this.#parent[top] !== top) top = this.#parent[top]!;
    return top;
  }

  tie(a: number, b: number): void {
    this.#parent[this.of(a)] = this.of(b);
  }
}

function branchesOf(network: Network, at: ReadonlyMap<string, number>): Branch[] {
  return network.elements.flatMap((element): Branch[] => {
    const value = chosen(element, at);
    if (element.kind === 'resistance') return [{ a: element.a, b: element.b, ohms: value, volts: 0 }];
    return element.kind === 'voltage' ? [{ a: element.plus, b: element.minus, ohms: 0, volts: value }] : [];
  });
}

function injections(network: Network, at: ReadonlyMap<string, number>): Injection[] {
  return network.elements
    .filter(element => element.kind === 'current')
    .map(element => ({ from: element.from, to: element.to, amps: chosen(element, at) }));
}

function chosen(element: Element, at: ReadonlyMap<string, number>): number {
  return at.get(element.id) ?? rangeOf(element).nominal;
}

/** Not numbers where the equations have no one answer. */
function eliminate(matrix: Float64Array[], size: number): Float64Array {
  for (let step = 0; step < size; step++) {
    let pivot = step;
    for (let row = step + 1; row < size; row++) {
      if (Math.abs(matrix[row]![step]!) > Math.abs(matrix[pivot]![step]!)) pivot = row;
    }
    [matrix[step], matrix[pivot]] = [matrix[pivot]!, matrix[step]!];
    const head = matrix[step]!;
    for (let row = step + 1; row < size; row++) {
      const factor = matrix[row]![step]! / head[step]!;
      if (factor === 0) continue;
      for (let column = step; column <= size; column++) matrix[row]![column]! -= factor * head[column]!;
    }
  }
  const solution = new Float64Array(size);
  for (let row = size - 1; row >= 0; row--) {
    let sum = matrix[row]![size]!;
    for (let column = row + 1; column < size; column++) sum -= matrix[row]![column]! * solution[column]!;
    solution[row] = sum / matrix[row]![row]!;
  }
  return solution;
}
