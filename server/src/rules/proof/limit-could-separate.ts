import { limitAt } from '../../analysis/limits.ts';
import type { ProcedureView } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';
import { formatQuantity, formatRange } from '../../base/quantity/format.ts';
import { formatLimit, type Limit } from '../../base/quantity/limit.ts';
import type { Move } from '../../proof/explore.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import { isBad } from '../../proof/walk-fault.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { asFinding, type Blamed, blamed } from './blame.ts';
import { heaterWithLowLimit, soundHeater } from './example.ts';
import { walksIn } from './proved.ts';

export const limitCouldSeparate: Rule = {
  id: 'limit-could-separate',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'Limits that could tell a fault apart if they were moved',
  explanation: `
A machine with this fault passes these limits and ends badly further on. Its readings here lie apart from those of every good machine and of every
fault that takes the same branch and ends well, whatever the tolerances are: limits that end between the two would tell it apart at this step.

Move the limit to the value that the message gives, or to another one between the two ranges.`,
  bad: heaterWithLowLimit,
  good: soundHeater,
  *check(view) {
    const walks = walksIn(view);
    const passing = new Passing(walks);
    const found = new Map(
      walks.flatMap(walk => {
        const gap = isSurelyBad(walk) ? gapFor(walk, passing) : undefined;
        return gap ? [[walk, gap] as const] : [];
      }),
    );
    for (const isBelow of [true, false]) {
      const here = [...found.keys()].filter(walk => found.get(walk)!.isBelow === isBelow);
      for (const about of blamed(here, walk => found.get(walk)!.place)) {
        const all = here.map(walk => found.get(walk)!).filter(({ place }) => place.span === about.place.span);
        yield finding(about, found.get(about.walks[0])!, all, view);
      }
    }
  },
};

/** What lies between the readings of a fault at some limits and those of all that rightly passes them. */
interface Gap {
  readonly at: string;
  readonly place: Place;
  readonly limit: Limit;
  /** What the fault shows, and what all that rightly passes. */
  readonly fault: Span;
  readonly others: Span;
  readonly isBelow: boolean;
}

type Span = NonNullable<Move['range']>;

function finding(
  about: Blamed,
  { at, place, limit, fault, others, isBelow }: Gap,
  all: readonly Gap[],
  view: ProcedureView,
) {
  const { dimension } = limit;
  const end = isBelow
    ? roundBetween(Math.max(...all.map(gap => gap.fault.high)), others.low)
    : roundBetween(others.high, Math.min(...all.map(gap => gap.fault.low)));
  const limits = formatLimit({ ...limit, ...(isBelow ? { low: end } : { high: end }), dimension });
  const reads = (span: Span) => formatRange(span.low, span.high, dimension, 'outward');
  return asFinding('limit-could-separate', view, about, {
    message: `A limit of ${formatQuantity(end, dimension, { digits: 6 })} would tell ${name(about.walks[0].fault!.id)} apart here`,
    detail: `At ${name(at)} it reads ${reads(fault)}, and all that rightly passes ${reads(others)}.`,
    help: `Let the limits be ${name(limits)}.`,
    fixes: [{ title: `Let the limits be \`${limits}\``, edits: [{ place, text: limits }] }],
  });
}

function isSurelyBad({ fault, worst }: ProvedWalk): boolean {
  return fault !== undefined && isBad(worst.result) && !worst.isUndecided;
}

/** At the first step on the way at which a moved limit would part the fault from all that rightly passes there. */
function gapFor({ worst, of }: ProvedWalk, passing: Passing): Gap | undefined {
  for (const move of worst.end.path) {
    const place = passedLimits(move);
    const limit = place && limitAt(move.data, of);
    const others = limit && passing.at(place);
    const fault = move.range;
    if (!limit || !others || !fault) continue;
    const gap = { at: move.at, place, limit, fault, others };
    if (fault.high < others.low && fault.high > limit.low) return { ...gap, isBelow: true };
    if (fault.low > others.high && fault.low < limit.high) return { ...gap, isBelow: false };
  }
  return undefined;
}

/** All readings that pass limits on walks that end well, and on those of good machines, which must pass. */
class Passing {
  readonly #at = new Map<Place['span'], Span>();

  constructor(walks: readonly ProvedWalk[]) {
    for (const { fault, worst, ends } of walks) {
      if (fault && isBad(worst.result)) continue;
      for (const move of [worst.end, ...ends.map(({ end }) => end)].flatMap(({ path }) => path)) this.#add(move);
    }
  }

  at({ span }: Place): Span | undefined {
    return this.#at.get(span);
  }

  #add(move: Move): void {
    const place = passedLimits(move);
    if (!place || !move.range) return;
    const { low, high } = this.#at.get(place.span) ?? move.range;
    const { range } = move;
    this.#at.set(place.span, { ...range, low: Math.min(low, range.low), high: Math.max(high, range.high) });
  }
}

/** Where the limits stand that a reading passes. */
function passedLimits({ data: { action }, outcome: { branch } }: Move): Place | undefined {
  if (branch?.match.on !== 'within') return undefined;
  return action.verb === 'measure' || action.verb === 'read' ? action.limits?.place : undefined;
}

/** The value with the fewest digits in the middle half between two. */
function roundBetween(low: number, high: number): number {
  const middle = (low + high) / 2;
  const isNear = (value: number) => Math.abs(value - middle) <= (high - low) / 4;
  const rounded = [1, 2, 3, 4, 5].map(digits => Number(middle.toPrecision(digits)));
  return rounded.find(isNear) ?? middle;
}
