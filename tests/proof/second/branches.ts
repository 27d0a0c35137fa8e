import type { Range } from '../../../server/src/model/procedure.ts';
import type { Branch } from '../../../server/src/model/step.ts';

/** Of a share of the reading and some steps of the last digit, which grow tenfold from range to range. */
export function errorOf(value: number, range: Range | undefined): number {
  if (!range || !Number.isFinite(value)) return 0;
  const { accuracy, ranges, resolution } = range;
  const size = Math.abs(value);
  const own = ranges.find(end => size < end) ?? ranges.at(-1);
  const step = own === undefined ? resolution : resolution * (own / ranges[0]!);
  return accuracy.ratio * size + Math.max(1, accuracy.counts) * step;
}

export interface Stretch {
  readonly low: number;
  readonly high: number;
  readonly lowOpen: boolean;
  readonly highOpen: boolean;
  readonly overLimit: boolean;
}

export function takesValue({ low, high, lowOpen, highOpen, overLimit }: Stretch, value: number): boolean {
  if (value === Number.POSITIVE_INFINITY) return overLimit;
  return (value > low || (value === low && !lowOpen)) && (value < high || (value === high && !highOpen));
}

/** Every branch that takes some value between the two. Where two take the same value, each may be taken. */
export function touched(
  branches: readonly Branch[],
  limit: Stretch | undefined,
  least: number,
  most: number,
): readonly (Branch | 'stuck')[] {
  const stretches = branches.flatMap(branch => {
    const own = stretchOf(branch, limit);
    return own ? [{ branch, own }] : [];
  });
  // Between two neighbouring ends all values are taken alike.
  const ends = [least, most, ...stretches.flatMap(({ own }) => [own.low, own.high])]
    .filter(value => value >= least && value <= most)
    .sort((a, b) => a - b);
  const values = ends.flatMap((end, i) => (i === 0 ? [end] : [(ends[i - 1]! + end) / 2, end]));
  const otherwise = branches.find(({ match }) => match.on === 'otherwise');
  const found = new Set<Branch | 'stuck'>();
  for (const value of values) {
    const own = stretches.filter(one => takesValue(one.own, value)).map(({ branch }) => branch);
    if (own.length === 0) found.add(otherwise ?? 'stuck');
    for (const branch of own) found.add(branch);
  }
  return [...found];
}

function stretchOf({ match }: Branch, limit: Stretch | undefined): Stretch | undefined {
  if (match.on === 'limit') return match.limit;
  if (!limit) return undefined;
  const all = {
    low: Number.NEGATIVE_INFINITY,
    high: Number.POSITIVE_INFINITY,
    lowOpen: false,
    highOpen: false,
    overLimit: true,
  };
  if (match.on === 'within') return limit;
  if (match.on === 'below') return { ...all, high: limit.low, highOpen: !limit.lowOpen, overLimit: false };
  if (match.on === 'above') return { ...all, low: limit.high, lowOpen: !limit.highOpen, overLimit: !limit.overLimit };
  return undefined;
}
