import { tidy } from './decimal.ts';
import { parseNumber } from './number.ts';
import type { Parsed } from './problem.ts';

/** How far a meter's display may be from the truth. */
export interface Accuracy {
  /** Share of the reading, as a fraction. */
  readonly ratio: number;
  /** Steps of the last digit shown. */
  readonly counts: number;
}

/** Reads what a meter's data sheet prints: `0.5 % + 2`, `± (0.5 % + 2 counts)`, `0.5 % of reading + 2 digits`, `1 %`. */
export function parseAccuracy(text: string): Parsed<Accuracy> {
  const written =
    /^\s*(?:±|\+\/-)?\s*\(?\s*([\d.,]+)\s*%\s*(?:(?:of\s+)?(?:reading|rdg\.?))?\s*(?:\+\s*(\d+)\s*(?:counts?|digits?|dgts?\.?|lsd)?)?\s*\)?\s*$/i;
  const [, percent, counts = '0'] = written.exec(text) ?? [];
  if (percent === undefined) return unknownAccuracy(text);
  const share = parseNumber(percent, text.indexOf(percent));
  if (share.problem) return share;
  return { value: { ratio: tidy(share.value / 100), counts: Number(counts) } };
}

function unknownAccuracy(text: string): Parsed<Accuracy> {
  return {
    problem: {
      id: 'unknown-accuracy',
      message: 'The accuracy of a meter is a share of the reading plus counts',
      detail: 'The counts are steps of the last digit that the meter shows.',
      help: 'Write it as in the data sheet, for example `0.5 % + 2`.',
      start: 0,
      end: text.length,
    },
  };
}
