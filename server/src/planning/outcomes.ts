import type { MeterReading } from '../analysis/electrical.ts';
import { errorAt } from '../analysis/meter-display.ts';
import type { Situation } from '../analysis/situation.ts';
import { handheldMeter, type Meter } from '../model/meter.ts';
import type { Lead, MeterPlace } from '../model/step.ts';
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

/** What is told apart at first sight, from nominal values: ranges that meet are one outcome. */
export function toldRoughly({ shown }: Candidate): Told {
  return toldBy(
    shown.map(value => {
      if (typeof value === 'string') return value;
      const spread = spreadRatio * Math.abs(value) + spreadV;
      return { low: value - spread, high: value + spread };
    }),
  );
}

/** What is surely told apart: over all tolerances, and with what the meter may be off. */
export function toldSurely(
  candidate: Candidate,
  { circuit }: Bench,
  now: Situation,
  suspects: readonly Suspect[],
  meter: Meter = handheldMeter,
): Told {
  const { what, shown } = candidate;
  if (what.do === 'inspect') return toldRoughly(candidate);
  if (what.do === 'read') {
    // A state that the tolerances leave open is one with all that it may be.
    const all = suspects.map(({ effect }) => circuit.scanStates(what.module, what.datum, now, effect));
    return toldBy(merged(all));
  }
  const at = placeOf(what);
  return toldBy(
    suspects.map(({ effect }, i) => {
      const range = voltsIn(circuit.read(at, meter, now, effect), meter);
      return range ?? (typeof shown[i] === 'string' ? shown[i] : 'no reading');
    }),
  );
}

/** Points are read from behind their plugs. */
export function placeOf({ red, black }: What & { do: 'measure' }): MeterPlace {
  const lead = (point: string): Lead => ({ place: nowhere, point: { text: point, place: nowhere }, backProbe: true });
  return { measure: 'voltage', measurePlace: nowhere, red: lead(red), black: lead(black) };
}

const nowhere = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

/** What the meter may show; a floating lead is pulled to the other one. */
function voltsIn(reading: MeterReading, meter: Meter): { low: number; high: number } | undefined {
  if (reading.state === 'floating') return { low: -meter.voltage.resolution, high: meter.voltage.resolution };
  if (reading.state !== 'number') return undefined;
  const off = (value: number) => errorAt(value, meter.voltage);
  return { low: reading.low - off(reading.low), high: reading.high + off(reading.high) };
}

/** The words of suspects as one word where a suspect may show several. */
function merged(all: readonly (readonly string[])[]): readonly string[] {
  const root = new Map<string, string>();
  const find = (word: string): string => {
    const up = root.get(word) ?? word;
    return up === word ? word : find(up);
  };
  for (const words of all) for (const word of words) root.set(find(word), find(words[0]!));
  return all.map(words => find(words[0] ?? ''));
}

function toldBy(shown: readonly (string | { low: number; high: number })[]): Told {
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
  const words = new Map<string, number>();
  shown.forEach((one, suspect) => {
    if (typeof one !== 'string') return;
    const known = words.get(one) ?? outcomes.push({ word: one }) - 1;
    words.set(one, known);
    by[suspect] = known;
  });
  return { outcomes, by };
}

/** For the search of the best order. */
export function asTest({ minutes }: Candidate, { by }: Told): Test {
  return { minutes, outcomes: by.map(outcome => [outcome]) };
}
