import type { EliminationPlan } from '../numeric/star-mesh.ts';
import { type Core, type OperatingPoint, operate } from './core.ts';

/** Ends for every branch resistance and every source; `low === high` where a value is settled. */
export interface Box {
  ohmsLow: Float64Array;
  ohmsHigh: Float64Array;
  sourceLow: Float64Array;
  sourceHigh: Float64Array;
}

/** What holds for every point of a box. */
export interface Enclosure {
  /** `reading` at the centre of the box; no point of the box reads further from it than `reach`. */
  reading: number;
  reach: number;
  /** Variables that still have width: branch j as j, source k as `branches.length + k`. */
  open: number[];
  /**
   * Per open variable the way in which the reading moves with it all over the box: +1 and -1 proved (with the
   * resistance, not the conductance), 0 not proved.
   */
  slope: Int8Array;
  /** Per open variable a bound on what it can do to the reading; the worst is the one to branch on. */
  influence: Float64Array;
  centre: OperatingPoint;
  /** Volts or amperes against which differences of readings are to be judged. */
  scale: number;
}

/** Far above the rounding of the subtraction-free solution (about 1e-16 per elimination), far below any real slope. */
const ROUNDING = 1e-13;
const SLACK = 1 + 1e-9;

/** Stands for no bound at all where a value spans more than nine decades; finite, so that products with 0 stay 0. */
const UNKNOWN = 1e100;

/**
 * Encloses drive, adjoint and reading over a box, by one solution at its centre. With g0 the middle of each conductance,
 * d_j = (g_j - g0_j) / g0_j and w_j = sqrt(g0_j) u_j, exactly
 *
 *     w = w0 - P D w          P = sqrt(G0) a' A0^-1 a sqrt(G0),   D = diag(d)
 *
 * P is an orthogonal projection, so |P| <= 1, and |d| < 1 for positive resistances: hence with r = w - w0
 *
 *     |r|   <= |D w0| / (1 - d)                        (the norm)
 *     |r_j| <= sqrt(P_jj) (|D w0| + d |r|)             (r lies in the range of P)
 *     |r_j| <= sum_k |P_jk| d_k (|w0_k| + |r_k|)       (repeated, each time from the last bound)
 *
 * Uncertain sources widen w0 itself. The reading and each transfer factor follow from the identity
 *
 *     y(g) - y(g0) = sum_j (g_j - g0_j) adjoint0_j u_j(g)
 */
export function enclose(core: Core, plan: EliminationPlan, box: Box): Enclosure {
  const branchCount = core.branches.length;
  const conductance = new Float64Array(branchCount);
  const relative = new Float64Array(branchCount);
  const open: number[] = [];
  for (let j = 0; j < branchCount; j++) {
    const [least, most] = [1 / box.ohmsHigh[j]!, 1 / box.ohmsLow[j]!];
    conductance[j] = (least + most) / 2;
    if (most === least) continue;
    relative[j] = ((most - least) / (most + least)) * SLACK;
    open.push(j);
  }
  const freeBranches = open.slice();
  const sources = box.sourceLow.map((low, k) => (low + box.sourceHigh[k]!) / 2);
  const sourceReach = box.sourceLow.map((low, k) => ((box.sourceHigh[k]! - low) / 2) * SLACK);
  for (let k = 0; k < sources.length; k++) {
    if (sourceReach[k] !== 0) open.push(branchCount + k);
  }

  const centre = operate(core, plan, conductance, sources);
  const root = Float64Array.from(freeBranches, j => Math.sqrt(conductance[j]!));
  const deviation = Float64Array.from(freeBranches, j => relative[j]!);
  const projection = project(core, centre, freeBranches, root);
  const unitDrives = core.sources.map((_, k) => (sourceReach[k] !== 0 ? driveOfUnit(core, centre, k) : undefined));
  const widening = Float64Array.from(freeBranches, (j, at) => {
    let volts = ROUNDING * centre.driveScale[j]!;
    unitDrives.forEach((unit, k) => {
      if (unit) volts += sourceReach[k]! * Math.abs(unit[j]!) * SLACK;
    });
    return volts * root[at]!;
  });
  const rounding = Float64Array.from(freeBranches, (j, at) => ROUNDING * centre.adjointScale[j]! * root[at]!);
  const drive = Float64Array.from(freeBranches, (j, at) => Math.abs(centre.drive[j]! * root[at]!));
  const adjoint = Float64Array.from(freeBranches, (j, at) => Math.abs(centre.adjoint[j]! * root[at]!));
  const driveReach = spread(projection, deviation, drive, widening);
  const adjointReach = spread(projection, deviation, adjoint, rounding);

  const slope = new Int8Array(open.length);
  const influence = new Float64Array(open.length);
  let reach = 0;
  let scale = 0;
  freeBranches.forEach((j, at) => {
    if (drive[at]! > driveReach[at]! && adjoint[at]! > adjointReach[at]!) {
      slope[at] = -Math.sign(centre.drive[j]! * centre.adjoint[j]!);
    }
    influence[at] = deviation[at]! * (adjoint[at]! + rounding[at]!) * (drive[at]! + driveReach[at]!);
    reach += influence[at]!;
  });
  core.sources.forEach((_, k) => {
    const transfer = centre.transfer[k]!;
    scale += Math.abs(transfer) * Math.max(Math.abs(box.sourceLow[k]!), Math.abs(box.sourceHigh[k]!));
    const unit = unitDrives[k];
    if (!unit) return;
    let transferReach = ROUNDING * Math.abs(transfer);
    freeBranches.forEach((j, at) => {
      transferReach += deviation[at]! * root[at]! * Math.abs(unit[j]!) * (adjoint[at]! + adjointReach[at]!) * SLACK;
    });
    const index = open.indexOf(branchCount + k);
    if (Math.abs(transfer) > transferReach) slope[index] = Math.sign(transfer);
    influence[index] = sourceReach[k]! * (Math.abs(transfer) + ROUNDING * Math.abs(transfer));
    reach += influence[index]!;
  });
  return { reading: centre.reading, reach: reach * SLACK, open, slope, influence, centre, scale };
}

/** The rows and columns of P for the open branches, each entry raised by its rounding so that it bounds |P_jk|. */
function project(core: Core, centre: OperatingPoint, free: readonly number[], root: Float64Array): Float64Array[] {
  if (free.length === 0) return [];
  // Potentials for 1 A into each node: no entry is negative, so their sum bounds what the difference is made of.
  const unit = Array.from({ length: core.nodeCount }, (_, node) => {
    const injected = new Float64Array(core.nodeCount);
    injected[node] = 1;
    return centre.mesh.solve(injected);
  });
  return free.map((column, k) => {
    const fromA = unit[core.branches[column]!.a]!;
    const fromB = unit[core.branches[column]!.b]!;
    return Float64Array.from(free, (row, j) => {
      const { a, b } = core.branches[row]!;
      const volts = Math.abs(fromA[a]! - fromA[b]! - (fromB[a]! - fromB[b]!));
      const made = fromA[a]! + fromA[b]! + fromB[a]! + fromB[b]!;
      return (volts + ROUNDING * made) * root[j]! * root[k]!;
    });
  });
}

/** Drive of every branch by one unit of source k alone. */
function driveOfUnit(core: Core, centre: OperatingPoint, k: number): Float64Array {
  const current = new Float64Array(core.nodeCount);
  for (const [node, factor] of core.sources[k]!.injected) current[node]! += factor;
  core.branches.forEach(({ a, b, emf }, j) => {
    if (a === b) return;
    const amps = centre.conductance[j]! * emf[k]!;
    current[a]! -= amps;
    current[b]! += amps;
  });
  const potential = centre.mesh.solve(current);
  return Float64Array.from(core.branches, ({ a, b, emf }) => potential[a]! - potential[b]! + emf[k]!);
}

/** Bounds |w_j - w0_j| for all points of the box; `widening` is how far w0 itself may move. */
function spread(
  projection: readonly Float64Array[],
  deviation: Float64Array,
  centre: Float64Array,
  widening: Float64Array,
): Float64Array {
  const size = centre.length;
  const most = deviation.reduce((max, d) => Math.max(max, d), 0);
  const forced = Math.hypot(...centre.map((w, j) => w * deviation[j]!));
  const norm = most < 1 ? ((forced + Math.hypot(...widening)) / (1 - most)) * SLACK : UNKNOWN;
  let reach = centre.map((_, j) => {
    const own = Math.min(1, Math.sqrt(projection[j]![j]!));
    return Math.min(norm, widening[j]! + own * (forced + most * norm) * SLACK);
  });
  const moved = new Float64Array(size);
  for (let pass = 0; pass < 12; pass++) {
    let gained = false;
    for (let k = 0; k < size; k++) moved[k] = deviation[k]! * (centre[k]! + reach[k]!);
    const next = new Float64Array(size);
    for (let j = 0; j < size; j++) {
      // P is symmetric, so its column j serves as its row.
      const row = projection[j]!;
      let sum = widening[j]!;
      for (let k = 0; k < size; k++) sum += row[k]! * moved[k]!;
      next[j] = Math.min(reach[j]!, sum * SLACK);
      if (next[j]! < 0.95 * reach[j]!) gained = true;
    }
    reach = next;
    if (!gained) break;
  }
  return reach;
}
