import { type Diagnosed, type Figures, figuresOf } from '../sequence/figures.ts';
import type { End, Move } from './explore.ts';
import type { Proof, ProvedWalk } from './prove.ts';
import type { Result } from './walk-fault.ts';
import { isBad } from './walk-fault.ts';

/** What became of every fault in one variant, as plain data. */
export interface Coverage {
  /** Uri of the system file. */
  readonly system: string;
  readonly variant: string;
  /** The machine without a fault first, then each fault from each way in, in the order of the list of faults. */
  readonly walks: readonly CoveredWalk[];
  /** Faults that show none of the symptoms or codes. */
  readonly elsewhere: readonly CoveredFault[];
  /** Faults that the file leaves to others, with its reasons. */
  readonly leftOut: readonly (CoveredFault & { readonly because: string })[];
  readonly figures: CoverageFigures;
}

export interface CoveredFault {
  readonly fault: string;
  /** The part, wire, contact or item that it belongs to. */
  readonly owner: string;
  readonly title: string;
  readonly nature: 'hard' | 'intermittent';
  readonly likelihood: number;
}

export interface CoveredWalk extends CoveredFault {
  /** Empty for the machine without a fault. */
  readonly fault: string;
  /** The symptom or code that it comes in by; empty where the procedure has none. */
  readonly entry: string;
  /** Where that way in starts. */
  readonly start: string;
  readonly result: Result;
  /** Some machines inside the tolerances come to a better end. */
  readonly undecided: boolean;
  /** Nothing bad is found and nothing bad is left possible. */
  readonly proved: boolean;
  /** Every end, that of `result` first. */
  readonly ends: readonly CoveredEnd[];
  /** Names that the repair at the end of `result` gives; 0 where there is none. */
  readonly groupSize: number;
  readonly minutes: number;
}

export interface CoveredEnd {
  /** The ending, or the step where it is stuck or unknown. */
  readonly at: string;
  readonly isEnding: boolean;
  readonly result: Result;
  /** It is only not ruled out: no machine that comes to it is named, or an answer decides of which nothing says who gives it. */
  readonly open: boolean;
  /** Why it does not go on; empty for an ending. */
  readonly why: string;
  readonly minutes: number;
  readonly path: readonly { readonly at: string; readonly text: string }[];
  /** The values of the machine that comes to it, where not every one does. */
  readonly machine: readonly { readonly name: string; readonly value: number; readonly unit: 'V' | 'Ω' | 'A' }[];
}

/** Shares of the walks of faults. Weighted ones count each fault by its likelihood. */
export interface CoverageFigures extends Figures {
  /** Walks of faults: what all other counts are parts of. */
  readonly walks: number;
  readonly byResult: Readonly<Record<Result, number>>;
  readonly undecided: number;
  readonly unproved: number;
  /** Walks whose repair names the owner, alone or among others. */
  readonly covered: { readonly part: number; readonly fraction: number; readonly weighted: number };
  readonly minutes: {
    readonly mean: number;
    readonly weightedMean: number;
    readonly worst: number;
    readonly worstFault: string;
  };
  readonly steps: { readonly mean: number; readonly worst: number };
}

export function coverageOf(proof: Proof): readonly Coverage[] {
  return proof.cases.map(of => {
    const inCase = <T extends { readonly of: unknown }>(all: readonly T[]) => all.filter(one => one.of === of);
    const walks = inCase(proof.walks).map(coveredWalk);
    return {
      system: of.view.uri,
      variant: of.variant,
      walks,
      elsewhere: inCase(proof.elsewhere).map(coveredFault),
      leftOut: inCase(proof.leftOut).map(one => ({ ...coveredFault(one), because: one.because })),
      figures: figuresIn(walks.filter(({ fault }) => fault !== '')),
    };
  });
}

function coveredFault({ fault, nature }: Pick<ProvedWalk, 'fault' | 'nature'>): CoveredFault {
  return {
    fault: fault?.id ?? '',
    owner: fault?.owner ?? '',
    title: fault?.title ?? 'No fault',
    nature,
    likelihood: fault?.likelihood ?? 0,
  };
}

function coveredWalk(walk: ProvedWalk): CoveredWalk {
  const { worst, ends, unproved, entry, start } = walk;
  const first = coveredEnd(worst.end, worst.result, false, worst.specimen?.values ?? []);
  const others = ends
    .filter(({ end }) => keyOf(end) !== keyOf(worst.end))
    .map(({ end, result }) =>
      coveredEnd(
        end,
        result,
        unproved.some(one => one.end === end),
        [],
      ),
    );
  return {
    ...coveredFault(walk),
    entry: entry?.symptom?.text ?? entry?.code?.text ?? '',
    start,
    result: worst.result,
    undecided: worst.isUndecided,
    proved: !isBad(worst.result) && worst.result !== 'unknown' && unproved.length === 0,
    ends: [first, ...others],
    groupSize: worst.end.kind === 'ending' ? worst.end.data.items.length : 0,
    minutes: first.minutes,
  };
}

function coveredEnd(
  end: End,
  result: Result,
  open: boolean,
  values: readonly { id: string; value: number; kind: string }[],
): CoveredEnd {
  return {
    at: end.kind === 'ending' ? end.name : end.at,
    isEnding: end.kind === 'ending',
    result,
    open,
    why: end.kind === 'ending' ? '' : end.why,
    minutes: minutesOf(end.path),
    path: end.path.map(({ at, outcome }) => ({ at, text: outcome.text })),
    machine: values.map(({ id, value, kind }) => ({ name: id, value, unit: units[kind] ?? 'Ω' })),
  };
}

const units: Readonly<Record<string, 'V' | 'Ω' | 'A'>> = { voltage: 'V', resistance: 'Ω', current: 'A' };

export function keyOf(end: End): string {
  return `${end.kind} ${end.kind === 'ending' ? end.name : end.at}`;
}

function minutesOf(path: readonly Move[]): number {
  return path.reduce((sum, { data }) => sum + (data.minutes ?? 0), 0);
}

function figuresIn(walks: readonly CoveredWalk[]): CoverageFigures {
  const byResult = { right: 0, several: 0, 'handed on': 0, unknown: 0, stuck: 0, 'not found': 0, 'wrong part': 0 };
  for (const { result } of walks) byResult[result]++;
  const diagnosed = walks.map((walk): Diagnosed => ({ weight: walk.likelihood, groupSize: groupSizeOf(walk) }));
  const weight = sumOf(walks, ({ likelihood }) => likelihood);
  const covered = walks.filter(isCovered);
  const worst = walks.reduce<CoveredWalk | undefined>(
    (most, one) => (most && most.minutes >= one.minutes ? most : one),
    undefined,
  );
  const many = Math.max(1, walks.length);
  return {
    ...figuresOf(diagnosed),
    walks: walks.length,
    byResult,
    undecided: walks.filter(({ undecided }) => undecided).length,
    unproved: walks.filter(({ proved, result }) => !proved && !isBad(result)).length,
    covered: {
      part: covered.length,
      fraction: walks.length === 0 ? 0 : covered.length / walks.length,
      weighted: weight === 0 ? 0 : sumOf(covered, ({ likelihood }) => likelihood) / weight,
    },
    minutes: {
      mean: sumOf(walks, ({ minutes }) => minutes) / many,
      weightedMean: weight === 0 ? 0 : sumOf(walks, ({ minutes, likelihood }) => minutes * likelihood) / weight,
      worst: worst?.minutes ?? 0,
      worstFault: worst?.fault ?? '',
    },
    steps: {
      mean: sumOf(walks, ({ ends }) => ends[0]!.path.length) / many,
      worst: Math.max(0, ...walks.map(({ ends }) => ends[0]!.path.length)),
    },
  };
}

/** The repair names the owner, alone or among others. */
export function isCovered({ result }: Pick<CoveredWalk, 'result'>): boolean {
  return result === 'right' || result === 'several';
}

/** How many names a walk is left with when it ends; nothing where its fault is not detected. */
export function groupSizeOf({ result, groupSize }: CoveredWalk): number | undefined {
  if (result === 'right') return 1;
  return isCovered({ result }) || result === 'handed on' ? groupSize || ungrouped : undefined;
}

/** Handed on without naming anything: a group larger than any that is counted. */
const ungrouped = 10;

function sumOf<T>(all: readonly T[], of: (one: T) => number): number {
  return all.reduce((sum, one) => sum + of(one), 0);
}
