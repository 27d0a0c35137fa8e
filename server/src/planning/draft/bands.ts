import { tidy } from '../../base/quantity/decimal.ts';
import type { Told } from '../outcomes.ts';

/** The branches of a measuring step, as a reader of volts can tell them: what is right, what is under or over it, and all else. */
export interface Bands {
  /** What a good machine shows lies inside. */
  readonly within: { readonly low: number; readonly high: number };
  /** Branches beside `within`, with the outcomes that take them. A number is the end of the band. */
  readonly others: readonly Band[];
}

export interface Band {
  readonly key: 'below' | 'above' | 'otherwise';
  readonly volts?: number;
}

/** What is told apart by at most four branches: by suspect 0 for `within`, else the place in `others` and one more. */
export interface Banded {
  readonly bands: Bands;
  readonly by: readonly number[];
}

interface Stretch {
  readonly low: number;
  readonly high: number;
  readonly outcome: number;
}

/** Undefined where a good machine shows no number. `good` is the place of the good machine among the suspects. */
export function bandsFor({ outcomes, by }: Told, good: number): Banded | undefined {
  const stretches = outcomes
    .flatMap(({ range }, outcome): Stretch[] => (range ? [{ ...range, outcome }] : []))
    .sort((a, b) => a.low - b.low);
  const at = stretches.findIndex(({ outcome }) => outcome === by[good]);
  const home = stretches[at];
  if (!home) return undefined;
  const [under, over] = [stretches[at - 1], stretches[at + 1]];
  const width = Math.max(home.high - home.low, 0.2);
  const within = {
    low: under ? between(under.high, home.low) : roundedTo(home.low - width / 2, width / 4),
    high: over ? between(home.high, over.low) : roundedTo(home.high + width / 2, width / 4),
  };
  const [lowest, highest] = [stretches[0]!, stretches.at(-1)!];
  const words = outcomes.some(({ word }) => word !== undefined);
  const others: (Band & { takes: (outcome: number) => boolean })[] = [];
  // The outermost bands are told by one number; what lies between them and what is right is all else.
  if (at >= 2) {
    const volts = between(lowest.high, stretches[1]!.low);
    others.push({ key: 'below', volts, takes: outcome => outcome === lowest.outcome });
  }
  if (at <= stretches.length - 3) {
    const volts = between(stretches.at(-2)!.high, highest.low);
    others.push({ key: 'above', volts, takes: outcome => outcome === highest.outcome });
  }
  const bothSides = at === 1 && at === stretches.length - 2 && !words;
  if (bothSides) {
    others.push({ key: 'below', volts: within.low, takes: outcome => outcome === lowest.outcome });
  }
  others.push({ key: 'otherwise', takes: () => true });
  const of = (outcome: number) => (outcome === home.outcome ? 0 : others.findIndex(band => band.takes(outcome)) + 1);
  return { bands: { within, others: others.map(({ key, volts }) => ({ key, volts })) }, by: by.map(of) };
}

/** A number between the two with as few digits as there is room for. */
function between(a: number, b: number): number {
  return roundedTo((a + b) / 2, (b - a) / 3);
}

function roundedTo(value: number, room: number): number {
  const step = 10 ** Math.floor(Math.log10(Math.max(room, 1e-6)));
  return tidy(Math.round(value / step) * step) || 0;
}
