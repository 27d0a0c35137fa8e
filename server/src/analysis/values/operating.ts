import { existsIn } from '../../model/common.ts';
import { partIn } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import type { Circuit } from '../electrical.ts';
import type { Situation } from '../situation.ts';
import { type Change, changesFrom } from './changes.ts';
import type { Line } from './lines.ts';
import { voltage } from './meter.ts';
import type { StateOf } from './table.ts';

/**
 * What has to be set so that the machine is fed: the states that power its modules, or, where no module says what powers it, the
 * one state that brings voltage to the most lines. Only conditions are set: a button that somebody holds feeds nothing.
 */
export function* operatingStates(
  circuit: Circuit,
  system: System,
  lines: readonly Line[],
  black: string,
): Generator<void, StateOf[]> {
  const feeds = feedsOf(system, circuit.variant, black);
  const loads = lines.slice(0, mostLines).map(({ points: [red = ''] }) => ({ red, black, atLeastV: fedAtV }));
  const set: StateOf[] = [];
  for (let now = circuit.rest; ; ) {
    const best = yield* bestChange(circuit, system, now, feeds.length > 0 ? feeds : loads);
    if (!best) return set;
    set.push(...best.states);
    if (feeds.length === 0) return set;
    now = best.situation;
  }
}

/** The first of the conditions' states that feed the most, where any feeds more than what holds now. */
function* bestChange(
  circuit: Circuit,
  system: System,
  now: Situation,
  feeds: readonly Feed[],
): Generator<void, Change | undefined> {
  let best: Change | undefined;
  let most = fed(circuit, now, feeds);
  for (const change of changesFrom(now, system, circuit)) {
    const condition = system.conditions.get(change.states[0]!.name);
    if (!condition || condition.number || most === feeds.length) continue;
    const count = fed(circuit, change.situation, feeds);
    if (count > most) [best, most] = [change, count];
    yield;
  }
  return best;
}

function fed(circuit: Circuit, now: Situation, feeds: readonly Feed[]): number {
  return feeds.filter(({ red, black, atLeastV }) => {
    const reading = voltage(circuit, red, black, now);
    return reading.state === 'number' && Math.abs(reading.nominal) >= atLeastV;
  }).length;
}

/** Two places, and the voltage from which on what lies between them is fed. */
interface Feed {
  readonly red: string;
  readonly black: string;
  readonly atLeastV: number;
}

/** So many lines tell which condition feeds the machine. */
const mostLines = 60;

/** Anything less is leakage (common practice, no source). */
const fedAtV = 1;

/** The pins that modules are powered by. */
function feedsOf(system: System, variant: string, frame: string): Feed[] {
  return [...system.parts.values()].flatMap(part => {
    const data = partIn(part, variant);
    if (data.kind !== 'module' || !data.powered || !existsIn(part, variant)) return [];
    const { pin, aboveV } = data.powered;
    const black = data.ground ? `${part.id}.${data.ground.text}` : frame;
    return [{ red: `${part.id}.${pin.text}`, black, atLeastV: aboveV }];
  });
}
