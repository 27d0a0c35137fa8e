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
  for (const { a, b } of core.branches) {
    degree[a]!++;
    degree[b]!++;
  }
  const from = core.branches.map(branch => branch.a);
  const to = core.branches.map(branch => branch.b);
  return planElimination(core.nodeCount, from, to, degree.indexOf(Math.max(...degree)));
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
  const mesh = new StarMesh(plan, conductance);
  const emf = Float64Array.from(core.branches, branch => weigh(branch.emf, sources));
  const injected = new Float64Array(core.nodeCount);
  core.sources.forEach((source, k) => {
    for (const [node, factor] of source.injected) injected[node]! += factor * sources[k]!;
  });
  const [drive, driveScale, potential] = respond(core, mesh, conductance, emf, injected);

  const probe = Float64Array.from(core.branches, branch => branch.probe);
  const drawn = new Float64Array(core.nodeCount);
  if (core.leads) {
    drawn[core.leads[0]]! -= 1;
    drawn[core.leads[1]]! += 1;
  }
  const [adjoint, adjointScale, adjointPotential] = respond(core, mesh, conductance, probe, drawn);

  let reading = core.leads ? potential[core.leads[0]]! - potential[core.leads[1]]! : 0;
  for (let j = 0; j < probe.length; j++) reading += probe[j]! * conductance[j]! * drive[j]!;
  const transfer = Float64Array.from(core.sources, (source, k) => {
    let sum = source.direct;
    for (let j = 0; j < adjoint.length; j++) {
      const factor = core.branches[j]!.emf[k]!;
      if (factor !== 0) sum += factor * conductance[j]! * adjoint[j]!;
    }
    for (const [node, factor] of source.injected) sum -= factor * adjointPotential[node]!;
    return sum;
  });
  core.sources.forEach((source, k) => {
    reading += source.direct * sources[k]!;
  });
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
  const current = Float64Array.from(injected);
  const magnitude = Float64Array.from(injected, Math.abs);
  core.branches.forEach(({ a, b }, j) => {
    if (emf[j] === 0 || a === b) return;
    const amps = conductance[j]! * emf[j]!;
    current[a]! -= amps;
    current[b]! += amps;
    magnitude[a]! += Math.abs(amps);
    magnitude[b]! += Math.abs(amps);
  });
  const potential = mesh.solve(current);
  const bound = mesh.solve(magnitude);
  const drive = Float64Array.from(core.branches, ({ a, b }, j) => potential[a]! - potential[b]! + emf[j]!);
  const scale = Float64Array.from(core.branches, ({ a, b }, j) => bound[a]! + bound[b]! + Math.abs(emf[j]!));
  return [drive, scale, potential];
}

function weigh(factors: readonly number[], sources: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < factors.length; k++) sum += factors[k]! * sources[k]!;
  return sum;
}
