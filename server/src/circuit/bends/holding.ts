import { type Box, wholeBox } from '../box.ts';
import type { Bent, Network } from '../network.ts';
import { quickLook } from '../quick-look.ts';
import { checkTopology } from '../topology.ts';
import { dropIn, type Holding, highestV, neighbours, segmentOf, startOf, straighten } from './straighten.ts';

/** Rounds in which every part may change at once; then they change one by one. */
const boldRounds = 12;

/**
 * Which segment of each bent part holds at the nominal values in the box. The current of every part rises with its voltage, so there is one answer:
 * first all parts take the segment that their voltage asks for, which mostly settles at once; where that goes in circles, only the first
 * part in order that is wrong moves, by one segment (Murty's least-index rule, which ends for every such network). `pinned` parts stay.
 * Nothing where the network has no solution.
 */
export function holdingSegments(
  network: Network,
  pinned: Holding = new Map(),
  box: Box = wholeBox,
): Holding | undefined {
  return holdPieces(network, pinned, box)?.holding;
}

/** The same with the network that the pieces make, leaks and all. */
export function holdPieces(network: Network, pinned: Holding, box: Box): Held | undefined {
  const { bends = [] } = network;
  let holding = new Map(bends.map(bent => [bent.id, pinned.get(bent.id) ?? startOf(bent)]));
  const free = bends.filter(bent => !pinned.has(bent.id));
  const mostRounds = boldRounds + 64 * free.reduce((sum, bent) => sum + bent.segments.length, 0);
  for (let round = 0; round < mostRounds; round++) {
    const linear = straighten(network, holding, box, true);
    if (free.length === 0) return { holding, network: linear };
    const look = quickLook(linear) ?? quickLook(withoutContradictions(linear));
    if (!look) return undefined;
    const across = (bent: Bent) => look.between(bent.a, bent.b) ?? 0;
    const wrong = free.flatMap(bent => {
      const step = direction(bent, holding, across(bent), box);
      return step === 0 ? [] : [{ bent, step }];
    });
    if (wrong.length === 0) return { holding, network: linear };
    const moves = round < boldRounds ? wrong : wrong.slice(0, 1);
    holding = new Map(holding);
    for (const { bent, step } of moves) {
      const at = holding.get(bent.id)!;
      const asked = segmentAt(bent, across(bent));
      holding.set(bent.id, round < boldRounds && asked !== at ? asked : at + step);
    }
  }
  return undefined;
}

export interface Held {
  readonly holding: Holding;
  readonly network: Network;
}

/**
 * The network without the sources that have no solution, a shorted one or all but one of a ring: what hangs on them is not read anyway,
 * and what stands beside them is to have its pieces.
 */
function withoutContradictions(network: Network): Network {
  const wrong = new Set(
    checkTopology(network).flatMap(problem => {
      if (problem.kind === 'source-shorted') return [problem.element];
      return problem.kind === 'source-loop' ? problem.elements.slice(1) : [];
    }),
  );
  return { ...network, elements: network.elements.filter(({ id }) => !wrong.has(id)) };
}

/** The segment that a voltage lies in by the nominal curve. */
function segmentAt({ segments }: Bent, across: number): number {
  const at = segments.findIndex(segment => across <= highestV(segment));
  return at < 0 ? segments.length - 1 : at;
}

/** -1 or 1 where the part's own voltage asks for the piece below or above, 0 where the piece holds. */
function direction(bent: Bent, holding: Holding, across: number, box: Box): -1 | 0 | 1 {
  const segment = segmentOf(bent, holding);
  const [below, above] = neighbours(bent, holding).map(next => next && dropIn(bent, next, box).nominal);
  const [measured, from, to] =
    segment.kind === 'open'
      ? [across, below ?? segment.fromV?.nominal, above ?? segment.toV?.nominal]
      : [across - dropIn(bent, segment, box).nominal, segment.fromV, segment.toV];
  const slack = 1e-9 * Math.max(1e-3, Math.abs(across));
  if (to !== undefined && measured > to + slack) return 1;
  if (from !== undefined && measured < from - slack) return -1;
  return 0;
}
