import type { MeterReading } from '../analysis/electrical.ts';
import { errorAt } from '../analysis/meter-display.ts';
import type { Situation } from '../analysis/situation.ts';
import { nowhere } from '../base/place.ts';
import { leadTo } from '../model/lead.ts';
import { handheldMeter, type Meter } from '../model/meter.ts';
import type { MeterPlace } from '../model/step.ts';
import type { Test } from '../sequence/problem.ts';
import type { Bench } from './bench.ts';
import type { Candidate, What } from './candidate.ts';
import type { Suspect } from './suspect.ts';

/** One thing that may be shown, and who shows it. */
export interface Outcome {
  /** Between what and what it is; absent for a word. */
  readonly range?: { readonly low: number; readonly high: number };
  readonly word?: string;
}

/** What a candidate may show, and by suspect which of it. */
export interface Told {
  readonly outcomes: readonly Outcome[];
  readonly by: readonly number[];
}

/** A nominal voltage stands for all that tolerances make of it: so much of it either way. Common practice, no source. */
const spreadRatio = 0.05;
const spreadV = 0.05;

/** A range of volts, or a word. */
export type Shows = string | { readonly low: number; readonly high: number };

/** What a suspect shows at first sight, from nominal values. */
export function roughly(value: number | string): Shows {
  if (typeof value === 'string') return value;
  const spread = spreadRatio * Math.abs(value) + spreadV;
  return { low: value - spread, high: value + spread };
}

/** What a suspect surely shows: over all tolerances, and with what the meter may be off. */
export function surely(
  { what, shown }: Candidate,
  { circuit }: Bench,
  now: Situation,
  suspects: readonly Suspect[],
  place: number,
  meter: Meter = handheldMeter,
): Shows {
  const { effect } = suspects[place]!;
  const first = shown[place]!;
  if (what.do === 'inspect') return roughly(first);
  // A state that the tolerances leave open is none that could be relied on.
  if (what.do === 'read') {
    const states = circuit.scanStates(what.module, what.datum, now, effect);
    return states.length === 1 ? states[0]! : anything;
  }
  const range = voltsIn(circuit.read(placeOf(what), meter, now, effect), meter);
  return range ?? (typeof first === 'string' ? first : 'no reading');
}

/** A suspect that may show any of the states: it joins all of them to one. */
const anything = '\u0000any';

export function toldRoughly({ shown }: Candidate): Told {
  return toldBy(shown.map(roughly));
}

export function toldSurely(
  candidate: Candidate,
  one: Bench,
  now: Situation,
  suspects: readonly Suspect[],
  meter?: Meter,
): Told {
  return toldBy(suspects.map((_, place) => surely(candidate, one, now, suspects, place, meter)));
}

export function placeOf({ red, black }: What & { do: 'measure' }): MeterPlace {
  return { measure: 'voltage', measurePlace: nowhere, red: leadTo(red), black: leadTo(black) };
}

/** What the meter may show; a floating lead is pulled to the other one. */
function voltsIn(reading: MeterReading, meter: Meter): { low: number; high: number } | undefined {
  if (reading.state === 'floating') return { low: -meter.voltage.resolution, high: meter.voltage.resolution };
  if (reading.state !== 'number') return undefined;
  const off = (value: number) => errorAt(value, meter.voltage);
  return { low: reading.low - off(reading.low), high: reading.high + off(reading.high) };
}

/** Ranges that meet are one outcome, and so are all words where a suspect may show any of them. */
export function toldBy(shown: readonly Shows[]): Told {
  const ranges = shown
    .flatMap((one, suspect) => (typeof one === 'string' ? [] : [{ ...one, suspect }]))
    .sort((a, b) => a.low - b.low || a.high - b.high);
  const outcomes: Outcome[] = [];
  const by = new Array<number>(shown.length);
  let open: { low: number; high: number } | undefined;
  for (const { low, high, suspect } of ranges) {
    if (open && low <= open.high) open.high = Math.max(open.high, high);
    else {
      open = { low, high };
      outcomes.push({ range: open });
    }
    by[suspect] = outcomes.length - 1;
  }
  const isOpen = shown.includes(anything);
  const words = new Map<string, number>();
  shown.forEach((one, suspect) => {
    if (typeof one !== 'string') return;
    const word = isOpen ? '' : one;
    const known = words.get(word) ?? outcomes.push({ word }) - 1;
    words.set(word, known);
    by[suspect] = known;
  });
  return { outcomes, by };
}

/** For the search of the best order. */
export function asTest({ minutes }: Candidate, { by }: Told): Test {
  return { minutes, outcomes: by.map(outcome => [outcome]) };
}
