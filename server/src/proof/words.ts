import { formatQuantity } from '../base/quantity/format.ts';
import { type Coverage, type CoveredEnd, type CoveredWalk, groupSizeOf, isCovered } from './coverage.ts';
import { isBad, type Result } from './walk-fault.ts';

/** What the ends of walks are called, from the best to the worst, with what each means. */
export const resultWords: readonly (readonly [result: Result, title: string, meaning: string])[] = [
  ['right', 'right', 'the repair names what mends it and nothing else'],
  ['several', 'among others', 'the repair names more than mends it'],
  ['handed on', 'handed on', 'another procedure or somebody else goes on'],
  ['unknown', 'not computed', 'a reading on the way is not computed'],
  ['stuck', 'stuck', 'no way on'],
  ['not found', 'not found', 'ends as if nothing were wrong'],
  ['wrong part', 'wrong part', 'the repair names only what is good'],
];

/** One figure of a coverage as it is read. A share has a count and a percentage, a mean a number with its unit. */
export interface FigureInWords {
  readonly id: FigureId;
  readonly name: string;
  /** `14 of 89`, `25.6 min`. */
  readonly counted: string;
  /** What the second number counts, or what the mean is taken over. */
  readonly of: string;
  readonly percent?: string;
  /** The same with each fault counting by its likelihood. */
  readonly weighted?: string;
}

export type FigureId =
  | 'named'
  | 'detected'
  | 'one'
  | 'few'
  | 'group'
  | 'wrong part'
  | 'undecided'
  | 'unproved'
  | 'minutes'
  | 'most minutes'
  | 'steps';

/** More names than these in a repair are not a few. */
export const fewNames = 3;

/**
 * The figures, each with what it is a part of. Fractions of faults detected and isolated are meant as IEEE Std 1522 means them; isolated
 * ones are parts of those detected.
 */
export function figuresOf({ figures, walks }: Pick<Coverage, 'figures' | 'walks'>): readonly FigureInWords[] {
  const all = walks.filter(({ fault }) => fault !== '');
  const found = all.filter(walk => groupSizeOf(walk) !== undefined);
  const within = (size: number) => found.filter(walk => groupSizeOf(walk)! <= size);
  const { meanGroupSize, minutes, steps } = figures;
  return [
    { id: 'named', name: 'repair names the owner', ...partOf(all.filter(isCovered), all, everyWalk) },
    { id: 'detected', name: 'fraction of faults detected', ...partOf(found, all, everyWalk) },
    { id: 'one', name: 'isolated to one name', ...partOf(within(1), found, detectedOnes) },
    { id: 'few', name: `isolated to at most ${fewNames} names`, ...partOf(within(fewNames), found, detectedOnes) },
    ...(meanGroupSize
      ? [
          {
            id: 'group' as const,
            name: 'names that are left, mean',
            counted: rounded(meanGroupSize.counted),
            of: `over ${found.length} ${detectedOnes}`,
            weighted: rounded(meanGroupSize.weighted),
          },
        ]
      : []),
    { id: 'wrong part', name: 'a good part condemned', ...partOf(all.filter(isWrong), all, everyWalk) },
    { id: 'undecided', name: 'inside tolerances on either side', ...partOf(all.filter(isUndecided), all, everyWalk) },
    { id: 'unproved', name: 'neither proved nor ruled out', ...partOf(all.filter(isUnproved), all, everyWalk) },
    {
      id: 'minutes',
      name: 'minutes to an ending, mean',
      counted: rounded(minutes.mean),
      of: `over ${all.length} ${everyWalk}`,
      weighted: rounded(minutes.weightedMean),
    },
    {
      id: 'most minutes',
      name: 'minutes to an ending, most',
      counted: rounded(minutes.worst),
      of: minutes.worstFault,
    },
    {
      id: 'steps',
      name: 'steps to an ending, mean',
      counted: rounded(steps.mean),
      of: `over ${all.length} ${everyWalk}, most ${steps.worst}`,
    },
  ];
}

const everyWalk = 'walks';
const detectedOnes = 'walks detected';

const isWrong = ({ result }: CoveredWalk) => result === 'wrong part';
const isUndecided = ({ undecided }: CoveredWalk) => undecided;

/** No bad end is found, and one is not ruled out. */
export function isUnproved({ proved, result }: Pick<CoveredWalk, 'proved' | 'result'>): boolean {
  return !proved && !isBad(result);
}

function partOf(part: readonly CoveredWalk[], whole: readonly CoveredWalk[], of: string) {
  return {
    counted: `${part.length} of ${whole.length}`,
    of,
    percent: percent(shareOf(part, whole)),
    weighted: percent(weightedShareOf(part, whole)),
  };
}

/** 0 where there is no whole. */
export function shareOf(part: readonly unknown[], whole: readonly unknown[]): number {
  return whole.length === 0 ? 0 : part.length / whole.length;
}

/** Each fault counts by its likelihood. */
export function weightedShareOf(part: readonly CoveredWalk[], whole: readonly CoveredWalk[]): number {
  const weight = (walks: readonly CoveredWalk[]) => walks.reduce((sum, { likelihood }) => sum + likelihood, 0);
  return weight(whole) === 0 ? 0 : weight(part) / weight(whole);
}

/** Figures as lines of words. */
export function figuresInWords(coverage: Coverage): readonly string[] {
  const { elsewhere, leftOut } = coverage;
  return [
    `${elsewhere.length} more show none of its symptoms and codes, ${leftOut.length} are left out by the file`,
    ...figuresOf(coverage).map(({ name, counted, of, percent: share, weighted }) => {
      const shares = share === undefined ? '' : ` (${share})`;
      return `${name}: ${counted} ${of}${shares}${weighted === undefined ? '' : `, weighted by likelihood ${weighted}`}`;
    }),
  ];
}

export function percent(fraction: number): string {
  if (fraction <= 0 || fraction >= 1) return fraction <= 0 ? '0 %' : '100 %';
  // What is not all is never told as all, nor what is something as nothing.
  return `${Math.min(99.9, Math.max(0.1, Math.round(fraction * 1000) / 10))} %`;
}

export function rounded(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** The values that matter most of the machine that comes to this end: `G1 at 12.3 V, R1 at 121 Ω`. */
export function machineInWords({ machine }: CoveredEnd): string {
  const dimension = { V: 'voltage', Ω: 'resistance', A: 'current' } as const;
  return machine
    .slice(0, 5)
    .map(({ name, value, unit }) => `${name} at ${formatQuantity(value, dimension[unit])}`)
    .join(', ');
}

/** `look: all sound, then sense-idle: 4.61 V`. */
export function wayInWords({ path }: CoveredEnd): string {
  return path.map(({ at, text }) => (text ? `${at}: ${text}` : at)).join(', then ');
}

/** `W41 open (now and then)`. */
export function faultInWords({ fault, nature }: Pick<CoveredWalk, 'fault' | 'nature'>): string {
  if (fault === '') return 'a good machine';
  return nature === 'intermittent' ? `${fault} (now and then)` : fault;
}
