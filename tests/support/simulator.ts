import { Simulation } from 'eecircuit-engine';
import type { Curve, Flat } from './bench.ts';
import { holdingPieces, pointIn } from './plain-bends.ts';

/**
 * Operating points of netlists by ngspice 45 (https://ngspice.sourceforge.io), as WebAssembly in the npm package `eecircuit-engine`
 * (MIT): volts as `v(node)` and amperes as `i(source)`, in small letters.
 */
export async function startSimulator(): Promise<(lines: readonly string[]) => Promise<ReadonlyMap<string, number>>> {
  const simulation = new Simulation();
  await simulation.start();
  const options = '.options reltol=1e-9 abstol=1e-15 vntol=1e-12 gmin=1e-18';
  return async lines => {
    simulation.setNetList(['some networks', ...lines, options, '.op', '.end'].join('\n'));
    const result = await simulation.runSim();
    if (result.dataType !== 'real') throw new Error('an operating point is real');
    return new Map(result.data.map(({ name, values }) => [name.toLowerCase(), values[0]!]));
  };
}

/**
 * A network as lines of a netlist, its names after `prefix`; node 0 is that of the simulator. A source of 0 V in line with every straight
 * branch tells its current. What does not hang on node 0 is tied to it by one resistor, through which nothing flows, and what an open
 * part lets through is a millionth of a millionth: a simulator has no answer for a node that floats. With curves it begins near the answer
 * of the plain solver, for its steps may go round a corner for ever; where it ends is its own.
 */
export function netlistOf(flat: Flat, prefix: string): string[] {
  const node = (of: number) => (of === 0 ? '0' : `${prefix}n${of}`);
  const lines = flat.straight.flatMap(({ a, b, ohms, volts }, i) => [
    `v${prefix}s${i} ${node(a)} ${prefix}m${i} ${volts}`,
    `r${prefix}s${i} ${prefix}m${i} ${node(b)} ${ohms}`,
  ]);
  flat.curves.forEach((curve, i) => {
    const [a, b] = [node(curve.a), node(curve.b)];
    lines.push(`b${prefix}c${i} ${a} ${b} i = ${currentOf(curve, `(v(${a}) - v(${b}))`)}`);
    lines.push(`r${prefix}c${i} ${a} ${b} 1e12`);
  });
  if (flat.curves.length > 0) {
    const point = pointIn(flat, holdingPieces(flat)!, 0);
    for (let of = 1; of < flat.nodeCount; of++) {
      const volts = point.volts(of, 0);
      if (!Number.isNaN(volts)) lines.push(`.nodeset v(${node(of)})=${volts}`);
    }
  }
  return [...lines, ...islandsOf(flat).map(first => `r${prefix}i${first} ${node(first)} 0 1`)];
}

/** The name of the current through a straight branch, from `a` to `b`. */
export function currentName(prefix: string, branch: number): string {
  return `i(v${prefix}s${branch})`;
}

export function voltageAt(answers: ReadonlyMap<string, number>, prefix: string, node: number): number {
  if (node === 0) return 0;
  const volts = answers.get(`v(${prefix}n${node})`);
  if (volts === undefined) throw new Error(`the simulator has no node ${prefix}n${node}`);
  return volts;
}

/** The first piece without end, and at each corner the change of slope. */
function currentOf({ pieces }: Curve, across: string): string {
  const slopes = pieces.map(({ ohms }) => (ohms === undefined ? 0 : 1 / ohms));
  const [first] = pieces;
  if (pieces.length === 1) return `${across} * ${slopes[0]}`;
  const start = first!.ohms === undefined ? 0 : (first!.toV - first!.volts!) / first!.ohms;
  const turns = pieces
    .slice(1)
    .map(({ fromV }, i) => `+ ${slopes[i + 1]! - slopes[i]!} * max(0, ${across} - (${fromV}))`);
  return [`${start} + ${slopes[0]} * (${across} - (${first!.toV}))`, ...turns].join(' ').replaceAll('+ -', '- ');
}

/** One node of each part that does not hang on node 0, whatever its curves do. */
function islandsOf({ nodeCount, straight, curves }: Flat): number[] {
  const label = Array.from({ length: nodeCount }, (_, node) => node);
  const of = (node: number): number => (label[node] === node ? node : of(label[node]!));
  for (const { a, b } of [...straight, ...curves]) {
    const [from, to] = [of(a), of(b)];
    label[Math.max(from, to)] = Math.min(from, to);
  }
  const used = new Set([...straight, ...curves].flatMap(({ a, b }) => [a, b]));
  return label.flatMap((_, node) => (node > 0 && of(node) === node && used.has(node) ? [node] : []));
}
