import type { Circuit, MeterReading } from '../electrical.ts';
import type { Wiring } from '../lower/wiring.ts';
import type { Situation } from '../situation.ts';
import { changesFrom } from './changes.ts';
import { isSwitched, type Line, titleOf } from './lines.ts';
import { tellsApart, voltage } from './meter.ts';
import type { StateOf, ValueReading, ValueRow } from './table.ts';

/** Where and how the voltages of a variant are measured. */
export interface Bench {
  readonly circuit: Circuit;
  readonly wiring: Wiring;
  readonly black: string;
  readonly base: Situation;
  /** How the base differs from rest. */
  readonly operating: readonly StateOf[];
}

export interface Voltages {
  readonly rows: readonly ValueRow[];
  readonly pointsLeftOut: readonly string[];
  readonly statesLeftOut: readonly StateOf[];
}

/** Every line in the base state, then in each state that is one change away, and outputs in the first pair of changes that tells more. */
export function* voltagesOf(bench: Bench, lines: readonly Line[], most: number): Generator<void, Voltages> {
  const { base, circuit, wiring } = bench;
  const meter = new CountingMeter(bench, most);
  const groups: Group[] = [];
  const pointsLeftOut: string[] = [];
  for (const { points } of lines) {
    if (meter.left >= points.length) groups.push(...grouped(points, meter, base));
    else pointsLeftOut.push(...points);
    yield;
  }
  const statesLeftOut: StateOf[] = [];
  for (const { states, situation } of changesFrom(base, wiring.system, circuit)) {
    // A state is looked at everywhere or nowhere: half a column would look like no difference.
    if (meter.left < groups.length) {
      statesLeftOut.push(states[0]!);
      continue;
    }
    for (const group of groups) {
      const reading = meter.read(group.points[0]!, situation);
      if (isNews(group, states, reading)) group.others.push({ states, reading });
      yield;
    }
  }
  yield* addPairs(groups, bench, meter);
  return { rows: groups.flatMap(group => rowOf(group, bench)), pointsLeftOut, statesLeftOut };
}

class CountingMeter {
  left: number;
  readonly #bench: Bench;

  constructor(bench: Bench, most: number) {
    this.#bench = bench;
    this.left = most;
  }

  read(point: string, now: Situation): MeterReading {
    this.left--;
    return voltage(this.#bench.circuit, point, this.#bench.black, now);
  }
}

/** Points of one line that the meter does not tell apart. */
interface Group {
  readonly points: string[];
  readonly first: MeterReading;
  readonly others: ValueReading[];
}

/** What a state shows only because of another one that it cannot be had without is told there. */
function isNews({ first, others }: Group, states: readonly StateOf[], reading: MeterReading): boolean {
  const isPartOf = (less: readonly StateOf[]) =>
    less.every(one => states.some(({ name, state }) => name === one.name && state === one.state));
  const known = others.filter(other => isPartOf(other.states)).map(other => other.reading);
  return [first, ...known].every(one => tellsApart(one, reading));
}

function grouped(points: readonly string[], meter: CountingMeter, base: Situation): Group[] {
  const groups: Group[] = [];
  for (const point of points) {
    const reading = meter.read(point, base);
    const known = groups.find(group => !tellsApart(group.first, reading));
    if (known) known.points.push(point);
    else groups.push({ points: [point], first: reading, others: [] });
  }
  return groups;
}

/**
 * An output often waits for two things at once: a button and a seat. The first two states that together show at it what neither
 * does alone are then looked at everywhere, as what it feeds shows more as well.
 */
function* addPairs(groups: readonly Group[], { circuit, wiring, base }: Bench, meter: CountingMeter) {
  const open = new Set(groups.filter(({ points }) => points.some(point => isSwitched(point, wiring))));
  const order = new Map([...base.states.keys()].map((name, i) => [name, i]));
  const changes = (now: Situation) => changesFrom(now, wiring.system, circuit);
  for (const first of changes(base)) {
    if (open.size === 0) return;
    for (const second of changes(first.situation)) {
      const isLater = order.get(second.states[0]!.name)! > order.get(first.states[0]!.name)!;
      if (meter.left < open.size + groups.length) return;
      if (!isLater) continue;
      const now = second.situation;
      const states = [...first.states, ...second.states];
      yield;
      const switched = [...open].filter(group => isNewTo(group, meter.read(group.points[0]!, now)));
      if (switched.length === 0) continue;
      for (const group of switched) open.delete(group);
      for (const group of groups) {
        const reading = meter.read(group.points[0]!, now);
        if (isNews(group, states, reading)) group.others.push({ states, reading });
        yield;
      }
    }
  }
}

/** Whether the line has shown nothing of the kind in any state. */
function isNewTo({ first, others }: Group, reading: MeterReading): boolean {
  return [first, ...others.map(other => other.reading)].every(one => tellsApart(one, reading));
}

function rowOf({ points, first, others }: Group, { black, operating, wiring }: Bench): ValueRow[] {
  // The red lead on the place of the black one tells nothing.
  const [red, ...also] = points.filter(point => point !== black);
  if (red === undefined) return [];
  const readings = [{ states: operating, reading: first }, ...others];
  return [{ red, black, title: titleOf(red, wiring), also, readings }];
}
