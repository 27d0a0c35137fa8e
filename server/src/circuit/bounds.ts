import type { EliminationPlan } from '../numeric/star-mesh.ts';
import { type Core, type OperatingPoint, operate, planCore } from './core.ts';
import { type Box, type Enclosure, enclose } from './enclosure.ts';

/*
 * How the ends of a reading over all tolerances are found.
 *
 * With everything but one value held, a reading is y = (a + b R) / (c + d R) in a resistance and affine in a source, so
 * it is monotone in each value and its extremes over the box of tolerances lie at corners. The direction may differ from
 * one part of the box to another, so a direction counts only where it is proved for all of a box:
 *
 *     dy/dg_j = adjoint_j(g) * drive_j(g),     both enclosed over the box (enclosure.ts).
 *
 * Proved values are settled at their end, which makes the box smaller and lets more be proved. Where nothing more can be
 * proved the box is halved into the two ends of the most influential value. A box whose bound does not reach beyond the
 * best corner found is dropped. What comes back satisfies
 *
 *     attained <= max over the box of y <= bound,      attained = y(corner),
 *
 * and the two agree unless the budget of boxes ran out.
 */

/** One end of a reading, as a corner that reaches it and a bound that nothing passes. */
export interface Extreme {
  attained: number;
  bound: number;
  corner: Corner;
}

/** An end for every value: branch resistances in ohms, then sources. */
export interface Corner {
  ohms: Float64Array;
  sources: Float64Array;
  point: OperatingPoint;
}

export interface Effort {
  /** Boxes that may still be looked at; shared by both ends. */
  boxes: number;
  cancelled: () => boolean;
}

/** Lowest and highest reading of a core whose resistances are all positive. */
export function extremes(core: Core, effort: Effort): { low: Extreme; high: Extreme } {
  const search = new Search(core, planCore(core), effort);
  return { low: search.towards(-1), high: search.towards(1) };
}

interface OpenBox {
  box: Box;
  /** No point of the box exceeds it, in the direction of the search. */
  bound: number;
}

/** Differences below this part of what the sources contribute are rounding. */
const RESOLUTION = 1e-12;

class Search {
  private readonly core: Core;
  private readonly plan: EliminationPlan;
  private readonly effort: Effort;
  private first: Enclosure | undefined;

  constructor(core: Core, plan: EliminationPlan, effort: Effort) {
    this.core = core;
    this.plan = plan;
    this.effort = effort;
  }

  towards(direction: 1 | -1): Extreme {
    let best: Corner | undefined;
    const worth = (corner: Corner) => direction * corner.point.reading;
    const consider = (corner: Corner) => {
      if (!best || worth(corner) > worth(best)) best = corner;
    };
    const open: OpenBox[] = [{ box: fullBox(this.core), bound: Number.POSITIVE_INFINITY }];
    let resolution = 0;
    // At least one box is looked at, so that there is a corner and a bound to report however small the budget is.
    const allowance = Math.max(1, Math.floor(this.effort.boxes / (direction === -1 ? 2 : 1)));
    let spent = 0;

    while (open.length > 0) {
      const { box, bound } = takeWidest(open);
      if (best && bound <= worth(best) + resolution) continue;
      if (spent >= allowance || (spent > 0 && this.effort.cancelled())) {
        open.push({ box, bound });
        break;
      }
      let limit = bound;
      for (;;) {
        const enclosure = this.enclosureOf(box, spent === 0);
        spent++;
        resolution = Math.max(resolution, RESOLUTION * enclosure.scale);
        limit = Math.min(limit, direction * enclosure.reading + enclosure.reach);
        if (best && limit <= worth(best) + resolution) break;
        if (enclosure.open.length === 0) {
          consider({ ohms: box.ohmsLow, sources: box.sourceLow, point: enclosure.centre });
          break;
        }
        const settled = this.settle(box, enclosure, direction);
        if (settled === enclosure.open.length) {
          consider(this.corner(box.ohmsLow, box.sourceLow));
          break;
        }
        if (settled === 0) {
          consider(this.climb(box, enclosure, direction));
          open.push(...this.halves(box, enclosure, limit));
          break;
        }
      }
    }
    this.effort.boxes -= spent;
    const attained = best!.point.reading;
    const bound = open.reduce((most, next) => Math.max(most, next.bound), worth(best!));
    const reached = bound <= worth(best!) + resolution;
    return { attained, bound: reached ? attained : direction * bound, corner: best! };
  }

  /** The full box is the same for both directions. */
  private enclosureOf(box: Box, isFull: boolean): Enclosure {
    if (!isFull) return enclose(this.core, this.plan, box);
    this.first ??= enclose(this.core, this.plan, box);
    return this.first;
  }

  /** Puts every value of proved slope at its end; says how many. */
  private settle(box: Box, enclosure: Enclosure, direction: number): number {
    let settled = 0;
    enclosure.open.forEach((variable, at) => {
      if (enclosure.slope[at] === 0) return;
      settleAt(box, this.core, variable, enclosure.slope[at]! * direction > 0);
      settled++;
    });
    return settled;
  }

  /** A good corner of the box: from the slopes at its centre, then from those at the corner itself while that gains. */
  private climb(box: Box, enclosure: Enclosure, direction: number): Corner {
    const towards = (point: OperatingPoint) => {
      const trial = copyOf(box);
      for (const variable of enclosure.open) {
        settleAt(trial, this.core, variable, slopeAt(this.core, point, variable) * direction > 0);
      }
      return this.corner(trial.ohmsLow, trial.sourceLow);
    };
    let best = towards(enclosure.centre);
    for (let round = 0; round < 8; round++) {
      const next = towards(best.point);
      if (direction * (next.point.reading - best.point.reading) <= 0) break;
      best = next;
    }
    return best;
  }

  private corner(ohms: Float64Array, sources: Float64Array): Corner {
    const point = operate(
      this.core,
      this.plan,
      ohms.map(r => 1 / r),
      sources,
    );
    return { ohms, sources, point };
  }

  private halves(box: Box, enclosure: Enclosure, bound: number): OpenBox[] {
    const worst = enclosure.influence.indexOf(Math.max(...enclosure.influence));
    return [true, false].map(high => {
      const half = copyOf(box);
      settleAt(half, this.core, enclosure.open[worst]!, high);
      return { box: half, bound };
    });
  }
}

function fullBox(core: Core): Box {
  return {
    ohmsLow: Float64Array.from(core.branches, branch => branch.part.ohms.low),
    ohmsHigh: Float64Array.from(core.branches, branch => branch.part.ohms.high),
    sourceLow: Float64Array.from(core.sources, source => source.range.low),
    sourceHigh: Float64Array.from(core.sources, source => source.range.high),
  };
}

function copyOf(box: Box): Box {
  return {
    ohmsLow: box.ohmsLow.slice(),
    ohmsHigh: box.ohmsHigh.slice(),
    sourceLow: box.sourceLow.slice(),
    sourceHigh: box.sourceHigh.slice(),
  };
}

function settleAt(box: Box, core: Core, variable: number, high: boolean): void {
  const source = variable - core.branches.length;
  const [low, top, at] = source < 0 ? [box.ohmsLow, box.ohmsHigh, variable] : [box.sourceLow, box.sourceHigh, source];
  if (high) low[at] = top[at]!;
  else top[at] = low[at]!;
}

/** The sign of the change of the reading with a resistance or a source at one operating point. */
function slopeAt(core: Core, point: OperatingPoint, variable: number): number {
  const source = variable - core.branches.length;
  return source < 0 ? -point.drive[variable]! * point.adjoint[variable]! : point.transfer[source]!;
}

/** Takes out the box that could reach furthest. */
function takeWidest(open: OpenBox[]): OpenBox {
  let widest = 0;
  for (let i = 1; i < open.length; i++) {
    if (open[i]!.bound > open[widest]!.bound) widest = i;
  }
  const taken = open[widest]!;
  open[widest] = open[open.length - 1]!;
  open.pop();
  return taken;
}
