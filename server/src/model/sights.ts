import type { Dimension } from '../base/quantity/dimension.ts';
import { ownStates, type Part, type PartData, type PartKind, type ScanDatum } from './parts.ts';
import type { System } from './system.ts';

/** Something of which a test of what the machine does can be made, over all variants of a system. */
export interface Sight {
  /** As it is written in the test: `Y1`, `A1.22`, `key`, `A1 keypad`. */
  readonly name: string;
  readonly sort: 'load' | 'output' | 'condition' | 'part' | 'scan data';
  /** Empty for a number, which is tested by a limit. */
  readonly states: readonly string[];
  /** Of a number, where it is known. */
  readonly dimension?: Dimension;
  /** The condition of which it is the state or the number. */
  readonly follows?: string;
  readonly title?: string;
}

/** By name. Where two things share one, what a step can set goes first, as it does in `set`. */
export function sightsIn(system: System): ReadonlyMap<string, Sight> {
  const before = known.get(system);
  if (before) return before;
  const sights = new Map<string, Sight>();
  const all = [...conditions(system), ...[...system.parts.values()].flatMap(part => ofPart(part, system))];
  for (const sight of all) {
    const same = sights.get(sight.name);
    if (!same) sights.set(sight.name, sight);
    else if (same.sort === sight.sort)
      sights.set(sight.name, { ...same, states: [...new Set([...same.states, ...sight.states])] });
  }
  known.set(system, sights);
  return sights;
}

const known = new WeakMap<System, ReadonlyMap<string, Sight>>();

function conditions(system: System): readonly Sight[] {
  return [...system.conditions.values()].map(({ id, states, number, title }) => ({
    name: id,
    sort: 'condition',
    states: states.map(state => state.text),
    dimension: number?.dimension,
    follows: id,
    title,
  }));
}

function ofPart(part: Part, system: System): readonly Sight[] {
  const { id, title } = part;
  return [part.data, ...part.byVariant.values()].flatMap((data): readonly Sight[] => {
    const states = ownStates(data);
    if (states.length > 0) return [{ name: id, sort: 'part', states, title }];
    if (loads.has(data.kind)) return [{ name: id, sort: 'load', states: onOrOff, title }];
    return data.kind === 'module'
      ? [{ name: id, sort: 'load', states: onOrOff, title }, ...ofModule(id, data, system)]
      : [];
  });
}

/** What takes current so that something is seen, felt or heard of it; of a module its display. */
const loads: ReadonlySet<PartKind> = new Set(['coil', 'lamp', 'motor', 'heater', 'led', 'relay']);

const onOrOff = ['on', 'off'];

function ofModule(id: string, { pins, scanData }: PartData & { kind: 'module' }, system: System): readonly Sight[] {
  const outputs = [...pins.values()].filter(({ output }) => output === 'low side' || output === 'high side');
  return [
    ...outputs.map(pin => ({
      name: `${id}.${pin.id}`,
      sort: 'output' as const,
      states: onOrOff,
      title: pin.name ?? pin.title,
    })),
    ...[...scanData.values()].map(datum => ({
      name: `${id} ${datum.id}`,
      sort: 'scan data' as const,
      ...decoded(datum, system),
      title: datum.title,
    })),
  ];
}

/** What scan data are decoded into; those that follow a condition have its states, or are a number as it is. */
function decoded(
  { states, shows, follows }: ScanDatum,
  system: System,
): Pick<Sight, 'states' | 'dimension' | 'follows'> {
  const followed = follows && system.conditions.get(follows.text);
  return {
    states: (followed?.states ?? states.map(({ name }) => name)).map(({ text }) => text),
    dimension: shows === 'voltage' ? 'voltage' : followed?.number?.dimension,
    follows: followed?.id,
  };
}
