import type { Dimension } from '../base/quantity/dimension.ts';
import { exact } from '../base/ranged.ts';
import { type OhmTest, readOhms } from '../circuit/bends/ohms.ts';
import { flatterBy, flattest } from '../circuit/bends/straighten.ts';
import { METER } from '../circuit/extract.ts';
import type { Bent, Element, Network, NodeId, Resistance } from '../circuit/network.ts';
import { quickLook } from '../circuit/quick-look.ts';
import { influences, isLive, type Measurement, type PartValue, type Reading, read } from '../circuit/reading.ts';
import type { Meter } from '../model/procedure.ts';
import { dimensionOf } from '../model/read-step.ts';
import type { MeterPlace } from '../model/step.ts';
import { combine } from './combine.ts';
import type { LeadReason, MeterReading } from './electrical.ts';
import { leadNode } from './lower/leads.ts';
import type { Wiring } from './lower/wiring.ts';
import { withAnswers } from './meter-answers.ts';
import type { Settled, Settling } from './settle.ts';
import type { Situation } from './situation.ts';

/** What the meter shows over all tolerances; `settled` finds the states of the machine, with what the meter puts into it. */
export function measure(
  wiring: Wiring,
  settled: (extra: readonly Element[]) => Settling,
  at: MeterPlace,
  meter: Meter,
  now: Situation,
): MeterReading {
  const leads = placeLeads(wiring, at, now);
  if ('state' in leads) return leads;
  if (at.measure === 'current' && leads.red !== undefined) return inSeries(wiring, settled, at, meter, leads);
  const reading =
    at.measure === 'voltage' || at.measure === 'voltage drop'
      ? voltageOf(wiring, settled, at, meter, leads)
      : inAll(settled(at.measure === 'test lamp' ? [between('test lamp', leads, meter.testLamp.ohms)] : []), one =>
          measureOne(wiring, one, at, meter, leads),
        );
  return withAnswers(reading, at.measure, meter);
}

/**
 * A voltmeter takes so little that hardly any state comes from it, but it pulls down a node that only parts which block hold up, or one
 * behind a large resistance that is near a threshold. There the machine settles with the meter in its place.
 */
function voltageOf(
  wiring: Wiring,
  settled: (extra: readonly Element[]) => Settling,
  at: MeterPlace,
  meter: Meter,
  leads: Leads,
): MeterReading {
  const alone = settled([]);
  const voltmeter = between(METER, leads, meter.inputOhms);
  if (!('settled' in alone) || alone.settled.every(one => isUnmovedBy(one, voltmeter)))
    return inAll(alone, one => measureOne(wiring, one, at, meter, leads));
  const inPlace = { ...meter, inputOhms: Number.POSITIVE_INFINITY };
  return inAll(settled([voltmeter]), one => measureOne(wiring, one, at, inPlace, leads));
}

/**
 * A meter moves no voltage by a greater part of the one that it reads than the ohms that it stands across are of its own. Those ohms are
 * looked for where it costs least first.
 */
function isUnmovedBy({ bent, leaky, states, staysWith }: Settled, voltmeter: Resistance): boolean {
  if (!bent.bends?.length || !Number.isFinite(voltmeter.ohms.nominal)) return true;
  const { a, b, ohms } = voltmeter;
  const across = (network: Network) => quickLook(network)?.mostOhms(a, b) ?? Number.POSITIVE_INFINITY;
  const most = unmoved * ohms.nominal;
  const times = flatterBy(bent, states);
  if (times * across(leaky) <= most || (times > 1 && across(flattest(bent)) <= most)) return true;
  return staysWith([voltmeter]);
}

/** A part of a voltage that decides nothing. */
const unmoved = 1e-6;

/** Each range of an ammeter has its own burden. One begins in the highest and goes down for as long as the current fits. */
function inSeries(
  wiring: Wiring,
  settled: (extra: readonly Element[]) => Settling,
  at: MeterPlace,
  meter: Meter,
  leads: Leads,
) {
  const { ranges, burdensOhms } = meter.current;
  const through = (ohms: number) =>
    inAll(settled([between('meter', leads, ohms)]), one => measureOne(wiring, one, at, meter, leads));
  const largest = (reading: MeterReading) =>
    reading.state === 'number' ? Math.max(Math.abs(reading.low), Math.abs(reading.high)) : Number.POSITIVE_INFINITY;
  let shown = through(burdensOhms.at(-1)!);
  const [top] = ranges.slice(-1);
  if (shown.state === 'number' && top !== undefined && Math.abs(shown.nominal) > top)
    return { state: 'over limit' } as const;
  for (let i = ranges.length - 2; i >= 0 && i < burdensOhms.length && largest(shown) < ranges[i]!; i--) {
    const lower = through(burdensOhms[i]!);
    if (largest(lower) >= ranges[i]!) break;
    shown = lower;
  }
  return shown;
}

function between(id: string, { red, black }: Leads, ohms: number): Resistance {
  return { kind: 'resistance', id, a: red!, b: black!, ohms: exact(ohms) };
}

/** A reading over every state that the tolerances leave open. */
export function inAll(settling: Settling, reading: (settled: Settled) => MeterReading): MeterReading {
  if ('restless' in settling) {
    const circle = settling.restless;
    return { state: 'not settled', names: [...new Set(circle.map(({ name }) => name))].sort(), circle };
  }
  if ('undecided' in settling) return { state: 'not computed', parts: settling.undecided };
  const { settled } = settling;
  const told = combine(settled.map(one => ({ reading: reading(one), sure: one.sure, cut: one.cut })));
  return toldByCurrent(told, settled[0]?.bent.bends ?? []);
}

/** A part that sets a current is told by that current, and not by the ohms of the piece of its curve that holds. */
function toldByCurrent(reading: MeterReading, bends: readonly Bent[]): MeterReading {
  const setting = new Map(bends.flatMap(bent => (bent.amps ? [[bent.id, bent] as const] : [])));
  if (reading.state !== 'number' || setting.size === 0) return reading;
  const told = (part: PartValue): PartValue => {
    const { amps, segments = [] } = setting.get(part.id) ?? {};
    const ohms = segments.flatMap(one => (one.kind === 'line' ? [one.ohms] : []));
    const piece = ohms.find(({ low, high }) => part.value >= low && part.value <= high);
    if (!amps || !piece) return part;
    // The more it lets through, the less ohms there are.
    const end = { low: 'high', nominal: 'nominal', high: 'low' } as const;
    return { ...part, kind: 'current', end: end[part.end], value: (amps * piece.nominal) / part.value };
  };
  return { ...reading, lowAt: reading.lowAt.map(told), highAt: reading.highAt.map(told) };
}

export interface Leads {
  readonly red?: NodeId;
  readonly black?: NodeId;
}

/** Where the leads touch the network, or why one cannot be put there; nothing for a clamp. */
export function placeLeads(wiring: Wiring, at: MeterPlace, now: Situation): Leads | MeterReading {
  if (at.around) return {};
  const nodes: { red?: NodeId; black?: NodeId } = {};
  for (const name of ['red', 'black'] as const) {
    const lead = at[name];
    const node: NodeId | LeadReason = lead ? leadNode(wiring, lead, now) : { kind: 'unknown point' };
    if (typeof node === 'object') return { state: 'no contact', lead: name, reason: node };
    nodes[name] = node;
  }
  return nodes;
}

function measureOne(wiring: Wiring, settled: Settled, at: MeterPlace, meter: Meter, leads: Leads): MeterReading {
  const measurement = measurementOf(settled, at, meter, leads);
  if (!measurement) return isWire(wiring, at) ? nothingFlows : noClamp;
  const { network } = settled;
  const hidden = notComputed(settled, measurement);
  if (hidden.length > 0) return { state: 'not computed', parts: hidden };
  if (measurement.measure === 'resistance' && isLive(network, measurement.red, measurement.black)) {
    return { state: 'live', supplies: suppliesOf(settled, measurement.red, measurement.black) };
  }
  const reading =
    measurement.measure === 'resistance'
      ? readOhms(settled.bent, measurement, testsOf(at, meter))
      : read(network, measurement);
  return toMeterReading(reading, dimensionOf[at.measure] ?? 'voltage');
}

/** A wire with ohms of its own that is not in the network is broken; of one without, nobody can tell what flows in it. */
function isWire({ wires }: Wiring, { around }: MeterPlace): boolean {
  return wires.some(({ wire }) => wire.id === around?.text && (wire.statedOhms ?? wire.size) !== undefined);
}

const nothingFlows: MeterReading = {
  state: 'number',
  dimension: 'current',
  low: 0,
  nominal: 0,
  high: 0,
  attained: { low: 0, high: 0 },
  exact: true,
  lowAt: [],
  highAt: [],
};

const noClamp: MeterReading = { state: 'no contact', lead: 'around', reason: { kind: 'unknown point' } };

/** What drives the current through a resistance, range by range. */
function testsOf(at: MeterPlace, { resistance, continuity }: Meter): readonly OhmTest[] {
  if (at.measure === 'continuity') return [{ ...continuity, upToOhms: Number.POSITIVE_INFINITY }];
  const { tests, ranges } = resistance;
  return tests.map((test, i) => ({
    ...test,
    upToOhms: i < tests.length - 1 ? (ranges[i] ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY,
  }));
}

function measurementOf(settled: Settled, at: MeterPlace, meter: Meter, { red, black }: Leads): Measurement | undefined {
  if (at.around) {
    const name = at.around.text;
    const element = settled.network.elements.find(e => e.id === name || e.id.startsWith(`${name} `));
    return element && { measure: 'clamp', element: element.id };
  }
  if (red === undefined || black === undefined) return undefined;
  switch (at.measure) {
    case 'voltage':
    case 'voltage drop':
      return { measure: 'voltage', red, black, inputOhms: meter.inputOhms };
    case 'resistance':
    case 'continuity': {
      // Leads are zeroed or subtracted by a careful technician; unzeroed they add up to their whole resistance.
      const leadsOhms = { low: 0, nominal: 0, high: meter.resistance.leadsOhms };
      return { measure: 'resistance', red, black, leadsOhms, overLimitOhms: meter.resistance.overLimitOhms };
    }
    case 'current':
      return { measure: 'clamp', element: 'meter' };
    case 'test lamp':
      return { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY };
  }
}

/** Parts without a computed behaviour that would change the reading if they conducted. */
function notComputed(settled: Settled, measurement: Measurement): readonly string[] {
  if (settled.unknown.size === 0) return [];
  const { network, partOf } = withStandIns(settled);
  return [...new Set(influences(network, measurement).flatMap(id => partOf.get(id) ?? []))];
}

/** The network with something in place of each part that is not computed, as if it conducted. */
function withStandIns(settled: Settled): { readonly network: Network; readonly partOf: ReadonlyMap<string, string> } {
  const before = standIns.get(settled);
  if (before) return before;
  const elements = [...settled.network.elements];
  const partOf = new Map<string, string>();
  let { nodeCount } = settled.network;
  for (const [part, { nodes, drives }] of settled.unknown) {
    for (let i = 1; i < nodes.length; i++) {
      const id = `instead of ${part} ${i}`;
      partOf.set(id, part);
      const inside = drives ? nodeCount++ : nodes[i - 1]!;
      elements.push({ kind: 'resistance', id, a: inside, b: nodes[i]!, ohms: exact(1000) });
      if (drives)
        elements.push({ kind: 'voltage', id: `${id} inside`, plus: inside, minus: nodes[i - 1]!, volts: exact(1) });
    }
  }
  const fresh = { network: { ...settled.network, nodeCount, elements }, partOf };
  standIns.set(settled, fresh);
  return fresh;
}

const standIns = new WeakMap<Settled, ReturnType<typeof withStandIns>>();

function suppliesOf(settled: Settled, red: NodeId, black: NodeId): readonly string[] {
  const sources = new Set(settled.network.elements.flatMap(e => (e.kind === 'voltage' ? [e.id] : [])));
  const at = { measure: 'voltage', red, black, inputOhms: 10e6 } as const;
  return influences(settled.network, at).filter(id => sources.has(id));
}

export function toMeterReading(reading: Reading, dimension: Dimension): MeterReading {
  switch (reading.state) {
    case 'number':
      return { ...reading, dimension };
    case 'over-limit':
      return { state: 'over limit' };
    case 'floating':
      return reading;
    case 'unsolvable': {
      const names = reading.problems.flatMap(p => ('elements' in p ? p.elements : [p.element]));
      return { state: 'no solution', names: [...new Set(names)], why: reading.problems[0]?.kind ?? 'unknown' };
    }
  }
}
