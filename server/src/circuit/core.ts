import type { Ranged } from '../base/ranged.ts';
import { type EliminationPlan, planElimination, StarMesh } from '../numeric/star-mesh.ts';

/**
 * One resistance of the network, or a passive two-terminal group that acts as one. Its resistance rises with that of
 * each member (Rayleigh), so its low end is all members low, and likewise high.
 */
export type Part =
  | { kind: 'element'; id: string; ohms: Ranged }
  | { kind: 'series' | 'parallel'; parts: readonly Part[]; ohms: Ranged };

/** From node `a` to `b`: `u = x[a] - x[b] + sum_k emf[k] * source[k]` volts drive the current `u / ohms` along it. */
export interface Branch {
  a: number;
  b: number;
  part: Part;
  emf: readonly number[];
  /** Its current counts this many times in a current reading, and not at all in a voltage reading. */
  probe: number;
}

/** A voltage or current source; volts or amperes. */
export interface CoreSource {
  id: string;
  kind: 'voltage' | 'current';
  range: Ranged;
  /** Amperes injected into nodes per unit of the source: pairs of node and factor. */
  injected: readonly (readonly [number, number])[];
  /** What a unit of the source adds to the reading by itself. */
  direct: number;
}

/**
 * The part of a network that one reading depends on. Ideal connections and voltage sources are merged away, so that
 * only conductances are left:
 *
 *     sum_j g_j a_j u_j = b        u_j = a_j' x + e_j        reading = c' x + sum_j probe_j g_j u_j + direct
 *
 * with `a_j` the incidence column of branch j, and `e`, `b`, `direct` linear in the sources.
 */
export interface Core {
  nodeCount: number;
  branches: readonly Branch[];
  sources: readonly CoreSource[];
  /** Nodes of the leads of a voltage reading; null for a current reading. */
  leads: readonly [red: number, black: number] | null;
}

/** The order of elimination for a core; the busiest node, mostly ground, is the reference. */
export function planCore(core: Core): EliminationPlan {
  const degree = new Int32Array(core.nodeCount);
  const from = new Int32Array(core.branches.length);
  const to = new Int32Array(core.branches.length);
  for (let j = 0; j < from.length; j++) {
    const { a, b } = core.branches[j]!;
    from[j] = a;
    to[j] = b;
    degree[a]!++;
    degree[b]!++;
  }
  let busiest = 0;
  for (let node = 1; node < degree.length; node++) if (degree[node]! > degree[busiest]!) busiest = node;
  return planElimination(core.nodeCount, from, to, busiest);
}

/** The core at one choice of values. */
export interface OperatingPoint {
  mesh: StarMesh;
  conductance: Float64Array;
  reading: number;
  /** Volts that drive each branch. */
  drive: Float64Array;
  /**
   * The same for the adjoint network: sources dead, one unit fed in where the reading is taken. The reading changes with
   * a conductance by `d reading / d g_j = adjoint[j] * drive[j]`.
   */
  adjoint: Float64Array;
  /** How the reading changes with each source: `d reading / d source_k`. */
  transfer: Float64Array;
  /** A bound on the volts that met in each entry of `drive` and `adjoint`; rounding stays far below it. */
  driveScale: Float64Array;
  adjointScale: Float64Array;
}

/** Solves the core and its adjoint for conductances in siemens, all positive, and source values. */
export function operate(
  core: Core,
  plan: EliminationPlan,
  conductance: Float64Array,
  sources: ArrayLike<number>,
): OperatingPoint {
  const { branches, leads, nodeCount } = core;
  const mesh = new StarMesh(plan, conductance);
  const emf = new Float64Array(branches.length);
  const probe = new Float64Array(branches.length);
  for (let j = 0; j < branches.length; j++) {
    emf[j] = weigh(branches[j]!.emf, sources);
    probe[j] = branches[j]!.probe;
  }
  const injected = new Float64Array(nodeCount);
  for (let k = 0; k < core.sources.length; k++) {
    for (const [node, factor] of core.sources[k]!.injected) injected[node]! += factor * sources[k]!;
  }
  const [drive, driveScale, potential] = respond(core, mesh, conductance, emf, injected);

  const drawn = new Float64Array(nodeCount);
  if (leads) {
    drawn[leads[0]]! -= 1;
    drawn[leads[1]]! += 1;
  }
  const [adjoint, adjointScale, adjointPotential] = respond(core, mesh, conductance, probe, drawn);

  let reading = leads ? potential[leads[0]]! - potential[leads[1]]! : 0;
  for (let j = 0; j < probe.length; j++) reading += probe[j]! * conductance[j]! * drive[j]!;
  const transfer = new Float64Array(core.sources.length);
  for (let k = 0; k < transfer.length; k++) {
    const source = core.sources[k]!;
    let sum = source.direct;
    for (let j = 0; j < adjoint.length; j++) {
      const factor = branches[j]!.emf[k]!;
      if (factor !== 0) sum += factor * conductance[j]! * adjoint[j]!;
    }
    for (const [node, factor] of source.injected) sum -= factor * adjointPotential[node]!;
    transfer[k] = sum;
    reading += source.direct * sources[k]!;
  }
  return { mesh, conductance, reading, drive, adjoint, transfer, driveScale, adjointScale };
}

/** Branch voltages for branch emfs and injected currents, the scale of each, and the node potentials. */
export function respond(
  core: Core,
  mesh: StarMesh,
  conductance: Float64Array,
  emf: Float64Array,
  injected: Float64Array,
): [drive: Float64Array, scale: Float64Array, potential: Float64Array] {
  const { branches } = core;
  const current = injected.slice();
  const magnitude = injected.slice();
  for (let node = 0; node < magnitude.length; node++) magnitude[node] = Math.abs(magnitude[node]!);
  for (let j = 0; j < branches.length; j++) {
    const { a, b } = branches[j]!;
    if (emf[j] === 0 || a === b) continue;
    const amps = conductance[j]! * emf[j]!;
    current[a]! -= amps;
    current[b]! += amps;
    magnitude[a]! += Math.abs(amps);
    magnitude[b]! += Math.abs(amps);
  }
  const potential = mesh.solve(current);
  const bound = mesh.solve(magnitude);
  const drive = new Float64Array(branches.length);
  const scale = new Float64Array(branches.length);
  for (let j = 0; j < branches.length; j++) {
    const { a, b } = branches[j]!;
    drive[j] = potential[a]! - potential[b]! + emf[j]!;
    scale[j] = bound[a]! + bound[b]! + Math.abs(emf[j]!);
  }
  return [drive, scale, potential];
}

function weigh(factors: readonly number[], sources: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < factors.length; k++) sum += factors[k]! * sources[k]!;
  return sum;
}
