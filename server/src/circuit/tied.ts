import { isExact } from '../base/ranged.ts';
import { type Box, cut, inBox, valuesIn } from './box.ts';
import type { NumberReading, Reading } from './display.ts';
import type { Network } from './network.ts';

/** Pieces of the tied tolerances that are looked at for each end. */
const mostPieces = 48;
/** A bound that is as near as this part of the whole range to what is reached is not made any nearer. */
const nearEnough = 1e-4;
/** More tolerances than this are not cut; what they tie then counts as free, which encloses all the more. */
const mostCut = 3;

/** The words of tolerances that tie several resistances of the network together. */
export function tiedTogether({ elements }: Network): readonly string[] {
  const seen = new Map<string, number>();
  for (const element of elements) {
    if (element.kind !== 'resistance' || !element.tied || isExact(element.ohms)) continue;
    seen.set(element.tied, (seen.get(element.tied) ?? 0) + 1);
  }
  return [...seen].filter(([, members]) => members > 1).map(([word]) => word);
}

/**
 * A reading in a network where resistances share a tolerance. The members of a group then do not reach their ends by themselves, and the
 * reading need not have its ends where the group has its own, for it is no quotient of affine functions of what they share. So the
 * tolerances are cut: in each piece the members count as free, which gives a bound,
 *
 *     min over the box  >=  min over pieces of (lowest with free members),
 *
 * and the piece with the worst bound is halved until the bound is near what a single machine reaches, all members at one place.
 */
export function readTied(network: Network, words: readonly string[], read: (network: Network) => Reading): Reading {
  const whole = read(network);
  if (whole.state !== 'number') return whole;
  const shared = words.slice(0, mostCut);
  const start: Box = new Map(shared.map(word => [word, [0, 1] as const]));
  const within = (box: Box) => read({ ...network, elements: inBox(network.elements, box) });
  // Only where every group is at one place does what is reached belong to a single machine.
  const others = words.slice(mostCut).map(word => [word, [0.5, 0.5]] as const);
  const ends: End[] = [];
  const reach = (places: Box) => {
    const box: Box = new Map([...places, ...others]);
    const reading = within(box);
    if (reading.state === 'number') ends.push({ box, reading });
  };
  for (const box of cornersOf(shared)) reach(box);
  reach(middleOf(start));
  if (ends.length === 0) return whole;
  const boundOf = (box: Box, side: 'low' | 'high') => {
    const found = within(box);
    return found.state === 'number' ? found[side] : whole[side];
  };
  const reached = ([direction, side]: Direction) =>
    ends.reduce((best, one) =>
      direction * (one.reading.attained[side] - best.reading.attained[side]) > 0 ? one : best,
    );
  const towards = (which: Direction) => {
    const [direction, side] = which;
    const enough = nearEnough * Math.max(whole.high - whole.low, 1e-12 * Math.abs(whole.nominal));
    const open: Piece[] = [{ box: start, bound: whole[side] }];
    for (let looked = 0; looked < mostPieces; looked++) {
      open.sort((a, b) => direction * (a.bound - b.bound));
      const worst = open.at(-1)!;
      if (direction * (worst.bound - reached(which).reading.attained[side]) <= enough) break;
      open.pop();
      for (const box of halves(worst.box)) open.push({ box, bound: boundOf(box, side) });
      reach(middleOf(worst.box));
    }
    const bound = open.reduce((most, { bound: next }) => (direction * (next - most) > 0 ? next : most), open[0]!.bound);
    const best = reached(which);
    const at = side === 'low' ? best.reading.lowAt : best.reading.highAt;
    return {
      attained: best.reading.attained[side],
      bound,
      at: [...at, ...valuesIn(inBox(network.elements, best.box), best.box)],
    };
  };
  const [low, high] = [towards([-1, 'low']), towards([1, 'high'])];
  return {
    ...whole,
    low: Math.min(whole.nominal, low.bound),
    high: Math.max(whole.nominal, high.bound),
    attained: { low: Math.min(whole.nominal, low.attained), high: Math.max(whole.nominal, high.attained) },
    exact: low.bound >= low.attained && high.bound <= high.attained,
    lowAt: low.at,
    highAt: high.at,
  };
}

type Direction = readonly [1 | -1, 'low' | 'high'];

interface End {
  readonly box: Box;
  readonly reading: NumberReading;
}

interface Piece {
  readonly box: Box;
  readonly bound: number;
}

function cornersOf(words: readonly string[]): readonly Box[] {
  return words.reduce<readonly Box[]>(
    (boxes, word) => boxes.flatMap(box => [0, 1].map(t => new Map([...box, [word, [t, t] as const]]))),
    [new Map()],
  );
}

function halves(box: Box): readonly Box[] {
  const [word] = [...box].reduce((widest, one) => (width(one[1]) > width(widest[1]) ? one : widest));
  return cut(box, word) ?? [];
}

function middleOf(box: Box): Box {
  return new Map([...box].map(([word, [from, to]]) => [word, [(from + to) / 2, (from + to) / 2] as const]));
}

function width([from, to]: readonly [number, number]): number {
  return to - from;
}
