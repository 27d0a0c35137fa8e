import type { Curve, Flat, Piece } from './bench.ts';
import { type Branch, type Point, solvePart } from './modified-nodal.ts';

/** What an open piece lets through while it is looked for which pieces hold. */
const leakOhms = 1e12;
/** Volts by which a piece may be passed: what rounding leaves, and where nothing is so near, what the leaks make of it. */
const [rounding, leaking] = [1e-12, 1e-7];

/**
 * Which piece of each curve holds in one machine, found by trying all combinations: those that differ least from `first` go first. The
 * current of each part rises with its voltage, so there is one answer; nothing where there is none.
 */
export function holdingPieces(flat: Flat, first?: readonly number[]): readonly number[] | undefined {
  const { curves } = flat;
  const start = first ?? curves.map(() => 0);
  let nearest: readonly number[] | undefined;
  let least = leaking;
  for (let changed = 0; changed <= curves.length; changed++) {
    for (const combination of differing(curves, start, changed)) {
      const passed = passedBy(flat, combination);
      if (passed <= rounding) return combination;
      if (passed < least) [nearest, least] = [combination, passed];
    }
  }
  return nearest;
}

/** Whether these pieces hold as well as any: where a part carries nothing at the very end of a piece, two of them do. */
export function doHold(flat: Flat, combination: readonly number[]): boolean {
  return passedBy(flat, combination) <= leaking;
}

/** The operating point of what hangs together with the node, once the pieces are known. What is open is no path. */
export function pointIn(flat: Flat, holding: readonly number[], node: number): Point {
  const pieces = flat.curves.flatMap((curve, i) => standIn(curve, curve.pieces[holding[i]!]!) ?? []);
  return solvePart({ nodeCount: flat.nodeCount, joins: [], branches: [...flat.straight, ...pieces] }, node);
}

/** How far beyond its piece the worst curve is, in volts. */
function passedBy(flat: Flat, combination: readonly number[]): number {
  const { nodeCount, straight, curves } = flat;
  const chosen = curves.map(({ pieces }, i) => pieces[combination[i]!]!);
  const branches = [
    ...straight,
    ...curves.map((curve, i) => standIn(curve, chosen[i]!) ?? { a: curve.a, b: curve.b, ohms: leakOhms, volts: 0 }),
  ];
  let point: Point | undefined;
  let worst = 0;
  curves.forEach(({ a, b }, i) => {
    point ??= solvePart({ nodeCount, joins: [], branches }, a);
    let across = point.volts(a, b);
    if (Number.isNaN(across)) {
      point = solvePart({ nodeCount, joins: [], branches }, a);
      across = point.volts(a, b);
    }
    const { fromV, toV } = chosen[i]!;
    worst = Math.max(worst, fromV - across, across - toV);
  });
  return worst;
}

function standIn({ a, b }: Curve, { volts = 0, ohms }: Piece): Branch | undefined {
  return ohms === undefined ? undefined : { a, b, ohms, volts };
}

/** All combinations that have another piece than `start` in so many curves. */
function* differing(curves: readonly Curve[], start: readonly number[], changed: number, at = 0): Generator<number[]> {
  if (at === curves.length) {
    if (changed === 0) yield [];
    return;
  }
  if (changed < curves.length - at) {
    for (const rest of differing(curves, start, changed, at + 1)) yield [start[at]!, ...rest];
  }
  if (changed === 0) return;
  for (let piece = 0; piece < curves[at]!.pieces.length; piece++) {
    if (piece === start[at]) continue;
    for (const rest of differing(curves, start, changed - 1, at + 1)) yield [piece, ...rest];
  }
}
