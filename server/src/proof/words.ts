import type { Coverage, CoveredEnd, CoveredWalk } from './coverage.ts';
import type { Result } from './walk-fault.ts';
import type { Fraction } from '../sequence/figures.ts';

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

/** Figures as lines of words, each with what it is a part of. */
export function figuresInWords({ figures, elsewhere, leftOut }: Coverage): readonly string[] {
  const { detected, isolated, minutes, steps, undecided, unproved, covered, walks } = figures;
  const [one] = isolated;
  const few = isolated[Math.min(isolated.length, 3) - 1];
  return [
    `${elsewhere.length} more show none of its symptoms and codes, ${leftOut.length} are left out by the file`,
    `repair names the owner: ${covered.part} of ${walks} walks (${percent(covered.fraction)}), weighted by likelihood ${percent(covered.weighted)}`,
    `fraction of faults detected: ${fractionInWords(detected)}`,
    ...(one ? [`isolated to one name: ${fractionInWords(one.ofDetected)} of those detected`] : []),
    ...(few && few !== one
      ? [`isolated to at most ${few.groupSize} names: ${fractionInWords(few.ofDetected)} of those detected`]
      : []),
    `inside tolerances on either side: ${undecided}; neither proved nor ruled out: ${unproved}`,
    `minutes to an ending: mean ${rounded(minutes.mean)}, weighted ${rounded(minutes.weightedMean)}, most ${rounded(minutes.worst)} (${minutes.worstFault || 'none'})`,
    `steps to an ending: mean ${rounded(steps.mean)}, most ${steps.worst}`,
  ];
}

function fractionInWords({ counted, weighted }: Fraction): string {
  return `${counted.part} of ${counted.whole} (${percent(counted.fraction)}), weighted ${percent(weighted.fraction)}`;
}

export function percent(fraction: number): string {
  // What is not all is never told as all.
  const shown = fraction < 1 ? Math.min(99.9, Math.round(fraction * 1000) / 10) : 100;
  return `${shown} %`;
}

function rounded(value: number): string {
  return String(Math.round(value * 10) / 10);
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
