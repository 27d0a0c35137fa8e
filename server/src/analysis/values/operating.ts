import { existsIn } from '../../model/common.ts';
import { partIn } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import type { Circuit } from '../electrical.ts';
import { type Change, changesFrom, withStates } from './changes.ts';
import type { Line } from './lines.ts';
import { voltage } from './meter.ts';
import type { StateOf } from './table.ts';

/**
 * What has to be set so that the machine is fed: the states that power its modules, or, where no module says what powers it, the
 * one state that brings voltage to the most lines. Only conditions are set: a button that somebody holds feeds nothing.
 */
export function operatingStates(circuit: Circuit, system: System, lines: readonly Line[], black: string): StateOf[] {
  const { variant, rest } = circuit;
  const feeds = feedsOf(system, variant, black);
  const conditions = ({ states: [first] }: Change) => system.conditions.get(first?.name ?? '')?.number === undefined;
  const choices = (now: typeof rest) =>
    changesFrom(now, system, circuit).filter(one => system.conditions.has(one.states[0]!.name) && conditions(one));
  const volts = (red: string, against: string, now: typeof rest) => {
    const reading = voltage(circuit, red, against, now);
    return reading.state === 'number' ? Math.abs(reading.nominal) : 0;
  };

  if (feeds.length === 0) {
    const fed = (now: typeof rest) => lines.filter(({ points }) => volts(points[0]!, black, now) > fedAboveV).length;
    const best = most(choices(rest), one => fed(one.situation));
    return best && fed(best.situation) > fed(rest) ? [...best.states] : [];
  }
  const powered = (now: typeof rest) =>
    feeds.filter(({ pin, ground, aboveV }) => volts(pin, ground, now) >= aboveV).length;
  const set: StateOf[] = [];
  for (let now = rest; ; ) {
    const best = most(choices(now), one => powered(one.situation));
    if (!best || powered(best.situation) <= powered(now)) return set;
    set.push(...best.states);
    now = withStates(now, best.states, circuit);
  }
}

/** What an indicator can be seen by; anything less is leakage. */
const fedAboveV = 1;

/** The pins that modules are powered by. */
function feedsOf(system: System, variant: string, black: string) {
  return [...system.parts.values()].flatMap(part => {
    const data = partIn(part, variant);
    if (data.kind !== 'module' || !data.powered || !existsIn(part, variant)) return [];
    const { pin, aboveV } = data.powered;
    const ground = data.ground ? `${part.id}.${data.ground.text}` : black;
    return [{ pin: `${part.id}.${pin.text}`, ground, aboveV }];
  });
}

/** The first of those with the highest count. */
function most<T>(all: readonly T[], count: (one: T) => number): T | undefined {
  let best: { one: T; reached: number } | undefined;
  for (const one of all) {
    const reached = count(one);
    if (!best || reached > best.reached) best = { one, reached };
  }
  return best?.one;
}
