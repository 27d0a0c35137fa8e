import type { NumberReading } from '../analysis/electrical.ts';
import { type Computed, computedAt, rangeInWords } from '../analysis/readings.ts';
import type { Case, ProcedureView } from '../analysis/view.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import { formatRange } from '../base/quantity/format.ts';
import type { Step } from '../model/step.ts';

/** The range at a step in a few words, over every situation it is reached in, and the variants it holds for. */
export interface VariantRange {
  readonly words: string;
  readonly cases: readonly Case[];
}

const worthShowing = new Set(['number', 'over limit', 'floating']);

/** One range where the variants give nearly the same, else one for each; readings that are no number stand by themselves. */
export function rangesByVariant(view: ProcedureView, step: Step, cases: readonly Case[]): VariantRange[] {
  const bands: Band[] = [];
  const words = new Map<string, Case[]>();
  for (const one of cases) {
    const found = computedAt(view, step, [one]).filter(({ reading }) => worthShowing.has(reading.state));
    const numbers = found.flatMap(({ reading }) => (reading.state === 'number' ? [reading] : []));
    if (numbers.length > 0) add(bands, bandOf(numbers, one));
    for (const text of othersIn(found)) words.set(text, [...(words.get(text) ?? []), one]);
  }
  return [
    ...bands.map(({ low, high, dimension, cases: of }) => ({
      words: formatRange(low, high, dimension, 'outward'),
      cases: of,
    })),
    ...[...words].map(([text, of]) => ({ words: text, cases: of })),
  ];
}

interface Band {
  readonly low: number;
  readonly high: number;
  readonly dimension: Dimension;
  readonly cases: readonly Case[];
}

function bandOf(numbers: readonly NumberReading[], one: Case): Band {
  const low = Math.min(...numbers.map(reading => reading.low));
  const high = Math.max(...numbers.map(reading => reading.high));
  return { low, high, dimension: numbers[0].dimension, cases: [one] };
}

/** Ends that lie nearer than a fiftieth of the value are told as one: what is left is the wire between two variants. */
function add(bands: Band[], band: Band): void {
  const slack = Math.max(0, ...[band.low, band.high].filter(Number.isFinite).map(Math.abs)) / 50;
  const isNear = (a: number, b: number) => a === b || Math.abs(a - b) <= slack;
  const at = bands.findIndex(
    ({ low, high, dimension }) => dimension === band.dimension && isNear(low, band.low) && isNear(high, band.high),
  );
  const near = bands[at];
  if (!near) bands.push(band);
  else
    bands[at] = {
      low: Math.min(near.low, band.low),
      high: Math.max(near.high, band.high),
      dimension: band.dimension,
      cases: [...near.cases, ...band.cases],
    };
}

function othersIn(found: readonly Computed[]): string[] {
  return [
    ...new Set(found.filter(({ reading }) => reading.state !== 'number').map(({ reading }) => rangeInWords(reading))),
  ];
}
