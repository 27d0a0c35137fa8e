import { type Element, type Network, rangeOf } from '../../server/src/circuit/network.ts';
import type { Measurement } from '../../server/src/circuit/reading.ts';

/**
 * A second opinion on small networks, written another way than the product: modified nodal analysis with every join and
 * source as an unknown current, dense, by elimination with full row pivoting. Values by element id.
 */
export function secondOpinion(network: Network, measurement: Measurement, at: ReadonlyMap<string, number>): number {
  switch (measurement.measure) {
    case 'voltage': {
      const { red, black, inputOhms } = measurement;
      const meter: Row[] = Number.isFinite(inputOhms) ? [{ a: red, b: black, ohms: inputOhms, volts: 0 }] : [];
      const { potential } = solveRows(network.nodeCount, [...rowsOf(network, at), ...meter], injections(network, at));
      return potential[red]! - potential[black]!;
    }
    case 'current': {
      const { red, black, burdenOhms } = measurement;
      const rows = [{ a: red, b: black, ohms: burdenOhms, volts: 0 }, ...rowsOf(network, at)];
      return solveRows(network.nodeCount, rows, injections(network, at)).current[0]!;
    }
    case 'resistance': {
      const { red, black } = measurement;
      const dead = rowsOf(network, at).map(row => ({ ...row, volts: 0 }));
      const { potential } = solveRows(network.nodeCount, dead, [{ from: black, to: red, amps: 1 }]);
      return potential[red]! - potential[black]! + measurement.leadsOhms.nominal;
    }
    case 'clamp': {
      const index = network.elements.findIndex(({ id }) => id === measurement.element);
      const element = network.elements[index]!;
      if (element.kind === 'current') return chosen(element, at);
      const row = network.elements.slice(0, index).filter(({ kind }) => kind !== 'current').length;
      const amps = solveRows(network.nodeCount, rowsOf(network, at), injections(network, at)).current[row]!;
      return element.kind === 'voltage' ? -amps : amps;
    }
  }
}

/** `v(a) - v(b) = volts + ohms * current`, with the current from a to b. */
interface Row {
  a: number;
  b: number;
  ohms: number;
  volts: number;
}

function rowsOf(network: Network, at: ReadonlyMap<string, number>): Row[] {
  const rows: Row[] = [];
  for (const element of network.elements) {
    if (element.kind === 'resistance') rows.push({ a: element.a, b: element.b, ohms: chosen(element, at), volts: 0 });
    if (element.kind === 'voltage') {
      rows.push({ a: element.plus, b: element.minus, ohms: 0, volts: chosen(element, at) });
    }
  }
  for (const [a, b] of network.joins) rows.push({ a, b, ohms: 0, volts: 0 });
  return rows;
}

function injections(network: Network, at: ReadonlyMap<string, number>) {
  return network.elements
    .filter(element => element.kind === 'current')
    .map(element => ({ from: element.from, to: element.to, amps: chosen(element, at) }));
}

function chosen(element: Element, at: ReadonlyMap<string, number>): number {
  return at.get(element.id) ?? rangeOf(element).nominal;
}

function solveRows(
  nodeCount: number,
  rows: readonly Row[],
  injected: readonly { from: number; to: number; amps: number }[],
): { potential: number[]; current: number[] } {
  const size = nodeCount + rows.length;
  const matrix = Array.from({ length: size }, () => new Array<number>(size + 1).fill(0));
  rows.forEach(({ a, b, ohms, volts }, k) => {
    const column = nodeCount + k;
    matrix[a]![column]! += 1;
    matrix[b]![column]! -= 1;
    matrix[column]![a]! += 1;
    matrix[column]![b]! -= 1;
    matrix[column]![column] = -ohms;
    matrix[column]![size] = volts;
  });
  for (const { from, to, amps } of injected) {
    matrix[from]![size]! -= amps;
    matrix[to]![size]! += amps;
  }
  // Node 0 is the reference.
  matrix[0] = new Array<number>(size + 1).fill(0);
  matrix[0]![0] = 1;
  const solution = eliminate(matrix, size);
  return { potential: solution.slice(0, nodeCount), current: solution.slice(nodeCount) };
}

function eliminate(matrix: number[][], size: number): number[] {
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
  const solution = new Array<number>(size).fill(0);
  for (let row = size - 1; row >= 0; row--) {
    let sum = matrix[row]![size]!;
    for (let column = row + 1; column < size; column++) sum -= matrix[row]![column]! * solution[column]!;
    solution[row] = sum / matrix[row]![row]!;
  }
  return solution;
}
