import { existsIn } from '../../model/common.ts';
import { type Part, type PartData, partIn } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import { makeCircuit } from '../circuit.ts';
import type { MeterReading } from '../electrical.ts';
import { situation } from '../situation.ts';
import { type Change, changesFrom } from './changes.ts';
import { resistance, tellsApart } from './meter.ts';
import type { ValueReading, ValueRow } from './table.ts';

/** What a part without its plug shows between its terminals. */
export interface Unplugged {
  readonly rows: readonly ValueRow[];
  readonly isComputed: boolean;
}

/** Nothing of these is told by an ohmmeter: supplies push back, and the inside of a module is its maker's. */
const neverMeasured = new Set<PartData['kind']>(['battery', 'supply', 'module', 'item', 'unknown']);

/** The parts of a variant that an ohmmeter can say something about. */
export function measuredParts(system: System, variant: string): Part[] {
  return [...system.parts.values()].filter(
    part => existsIn(part, variant) && !neverMeasured.has(partIn(part, variant).kind),
  );
}

/** Every pair of terminals with a path in some state, and in which states the meter tells it from rest. */
export function unplugged(part: Part, system: System, variant: string): Unplugged {
  const data = partIn(part, variant);
  // Without its plug a part is alone in the world, so its circuit needs no other.
  const alone = { ...system, parts: new Map([[part.id, part]]), connectors: new Map(), ...nothingElse };
  const circuit = makeCircuit(alone, variant);
  const base = situation(circuit.rest.states, new Set([part.id]));
  const mine = namesIn(data).add(part.id);
  const changes = changesFrom(base, alone, circuit).filter(({ states: [first] }) => mine.has(first!.name));
  const rows: ValueRow[] = [];
  let isComputed = true;
  for (const [red, black] of pairsOf(data).map(pair => pair.map(terminal => `${part.id}.${terminal}`))) {
    const read = (now: Change['situation']) => resistance(circuit, red!, black!, now);
    const first = read(base);
    const others = changes.map(({ states, situation }) => ({ states, reading: read(situation) }));
    const told = others.filter(other => tellsApart(first, other.reading));
    const names = new Set(told.map(({ states: [state] }) => state!.name));
    const atRest = [...base.states].flatMap(([name, state]) => (names.has(name) ? [{ name, state }] : []));
    const readings: ValueReading[] = [{ states: atRest, reading: first }, ...told];
    if ([first, ...others.map(o => o.reading)].some(isHidden)) isComputed = false;
    else if (isRelayContact(data, red!, black!) || readings.some(({ reading }) => reading.state === 'number')) {
      rows.push({ red: red!, black: black!, title: part.title ?? part.id, also: [], readings });
    }
  }
  return { rows, isComputed };
}

const nothingElse = { wires: [], grounds: new Map(), splices: new Map() };

function isHidden({ state }: MeterReading): boolean {
  return state === 'not computed';
}

/** A contact that only closes with current in the coil is worth its `OL`. */
function isRelayContact(data: PartData, red: string, black: string): boolean {
  if (data.kind !== 'relay') return false;
  const [, , common, open] = data.terminals.map(({ text }) => text);
  return red.endsWith(`.${common}`) && black.endsWith(`.${open}`);
}

function pairsOf({ terminals }: PartData): (readonly [string, string])[] {
  return terminals.flatMap((a, i) => terminals.slice(i + 1).map(b => [a.text, b.text] as const));
}

/** Every name that a part's values and contacts hang on, wherever in it a test or `follows` stands. */
function namesIn(value: unknown, found = new Set<string>()): Set<string> {
  if (value instanceof Map) for (const one of value.values()) namesIn(one, found);
  else if (Array.isArray(value)) for (const one of value) namesIn(one, found);
  else if (typeof value === 'object' && value !== null) {
    for (const [key, one] of Object.entries(value)) {
      if (key === 'place' || key === 'entry' || key === 'ref') continue;
      if ((key === 'name' || key === 'follows') && typeof one?.text === 'string') found.add(one.text);
      namesIn(one, found);
    }
  }
  return found;
}
