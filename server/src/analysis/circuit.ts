import { BoundedMap } from '../base/bounded-map.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import { exact } from '../base/ranged.ts';
import type { Element, Network, NodeId } from '../circuit/network.ts';
import { influences, isLive, type Measurement, type Reading, read } from '../circuit/reading.ts';
import { solve } from '../circuit/solve.ts';
import { existsIn } from '../model/common.ts';
import { ownStates } from '../model/parts.ts';
import type { Meter } from '../model/procedure.ts';
import { dimensionOf } from '../model/read-step.ts';
import type { MeterPlace } from '../model/step.ts';
import type { System } from '../model/system.ts';
import type { Circuit, LeadReason, MeterReading, NumberReading, Trouble } from './electrical.ts';
import { leadNode, pointNames } from './lower/leads.ts';
import type { Wiring } from './lower/wiring.ts';
import { frame, wire } from './lower/wiring.ts';
import { type Settled, type Settling, scanStates, settle } from './settle.ts';
import { type Situation, situation } from './situation.ts';
import { belongsTo, troublesIn } from './troubles.ts';

/** Makes a circuit whose readings are kept: equal questions are solved once. */
export function makeCircuit(system: System, variant: string): Circuit {
  const wiring = wire(system, variant);
  // A settled network of a 300-part system is some 200 kB; what was read in it is small, and kept for longer.
  const settlings = new BoundedMap<string, Settling>(48);
  const readings = new BoundedMap<string, Map<string, MeterReading>>(1_000);
  const shown = new BoundedMap<string, Map<string, string | undefined>>(1_000);
  const currents = new BoundedMap<string, Map<string, number>>(1_000);
  const found = new BoundedMap<string, readonly Trouble[]>(1_000);
  const rest = restSituation(wiring);
  const points = pointNames(wiring);

  const settled = (now: Situation, extra: readonly Element[] = []): Settling => {
    const more = extra.map(e => (e.kind === 'resistance' ? `#${e.a}-${e.b}-${e.ohms.nominal}` : ''));
    const key = more.length > 0 ? `${now.key}${more.join('')}` : now.key;
    return settlings.remember(key, () => settle(wiring, now, extra));
  };
  // The key of a situation is long: it is looked up as it stands, and never made part of another text.
  const here = <T>(memory: BoundedMap<string, Map<string, T>>, now: Situation, key: string, make: () => T): T => {
    const known = memory.remember(now.key, () => new Map());
    const before = known.get(key);
    if (before !== undefined || known.has(key)) return before as T;
    const fresh = make();
    known.set(key, fresh);
    return fresh;
  };
  const measured = (at: MeterPlace, meter: Meter, now: Situation): MeterReading =>
    here(readings, now, meterKey(at, meter), () => measure(wiring, settled, at, meter, now));
  const nominal = (now: Situation): Network | undefined => {
    const outcome = settled(now);
    return 'settled' in outcome ? outcome.settled[0]?.network : undefined;
  };
  const scanned = (module: string, datum: string, now: Situation): string | undefined => {
    const data = wiring.parts.find(p => p.part.id === module)?.data;
    const outcome = settled(now);
    if (data?.kind !== 'module' || 'restless' in outcome) return undefined;
    const all = outcome.settled.map(s => scanStates(wiring, now, s, module, data, datum));
    const distinct = new Set(all.flat());
    return distinct.size === 1 ? [...distinct][0] || undefined : undefined;
  };

  return {
    variant,
    points,
    rest,
    read: measured,
    differs: (at, meter, a, b) => a.key !== b.key && !sameReading(measured(at, meter, a), measured(at, meter, b)),
    scan: (module, datum, now) => here(shown, now, `${module}#${datum}`, () => scanned(module, datum, now)),
    scanVoltage(module, datum, now) {
      const data = wiring.parts.find(p => p.part.id === module)?.data;
      const from = data?.kind === 'module' ? data.scanData.get(datum)?.from : undefined;
      const pin = from && wiring.terminals.get(`${module}.${from.text}`)?.own;
      if (data?.kind !== 'module' || pin === undefined) return undefined;
      const ground = wiring.terminals.get(`${module}.${data.ground?.text}`)?.own ?? frame;
      const outcome = settled(now);
      if ('restless' in outcome) return { state: 'not settled', names: outcome.restless };
      return outcome.settled
        .map(({ network }) => read(network, { measure: 'voltage', red: pin, black: ground, inputOhms: Infinity }))
        .map(reading => toMeterReading(reading, 'voltage'))
        .reduce(hull);
    },
    currentThrough: (name, now) => here(currents, now, name, () => flowingThrough(name, nominal(now))),
    troubles: now =>
      found.remember(now.key, () => {
        const network = nominal(now);
        return network ? troublesIn(network) : [];
      }),
  };
}

const flows = new WeakMap<Network, ReadonlyMap<string, number>>();

/** The largest nominal current of what belongs to the name; 0 where the network has no solution. */
function flowingThrough(name: string, network: Network | undefined): number {
  const flowing = network && (flows.get(network) ?? solve(network).value?.currents);
  if (!network || !flowing) return 0;
  flows.set(network, flowing);
  const mine = [...flowing].filter(([id]) => belongsTo(id, name));
  return mine.reduce((most, [, amps]) => Math.max(most, Math.abs(amps)), 0);
}

/** Everything at rest: first states, numbers at their rest, nothing apart. */
function restSituation({ system, variant, parts }: Wiring): Situation {
  const states = new Map<string, string>();
  for (const condition of system.conditions.values()) {
    states.set(condition.id, condition.number ? String(condition.number.rest) : (condition.states[0]?.text ?? ''));
  }
  for (const { part, data } of parts) {
    const [first] = existsIn(part, variant) ? ownStates(data) : [];
    if (first !== undefined) states.set(part.id, first);
  }
  return situation(states, new Set());
}

function measure(
  wiring: Wiring,
  settled: (now: Situation, extra?: readonly Element[]) => Settling,
  at: MeterPlace,
  meter: Meter,
  now: Situation,
): MeterReading {
  if (at.measure === 'test lamp') return { state: 'not computed', parts: ['the test lamp'] };
  const leads = placeLeads(wiring, at, now);
  if ('state' in leads) return leads;
  const inSeries = at.measure === 'current' && leads.red !== undefined;
  const ammeter: readonly Element[] = inSeries
    ? [{ kind: 'resistance', id: 'meter', a: leads.red!, b: leads.black!, ohms: exact(meter.current.burdenOhms) }]
    : [];
  const outcome = settled(now, ammeter);
  if ('restless' in outcome) return { state: 'not settled', names: outcome.restless };
  const all = outcome.settled.map(one => measureOne(one, at, meter, leads));
  return all.reduce(hull);
}

interface Leads {
  readonly red?: NodeId;
  readonly black?: NodeId;
}

function placeLeads(wiring: Wiring, at: MeterPlace, now: Situation): Leads | MeterReading {
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

function measureOne(settled: Settled, at: MeterPlace, meter: Meter, leads: Leads): MeterReading {
  const measurement = measurementOf(settled, at, meter, leads);
  if (!measurement) return { state: 'no contact', lead: 'around', reason: { kind: 'unknown point' } };
  const { network } = settled;
  const hidden = notComputed(settled, measurement);
  if (hidden.length > 0) return { state: 'not computed', parts: hidden };
  if (measurement.measure === 'resistance' && isLive(network, measurement.red, measurement.black)) {
    return { state: 'live', supplies: suppliesOf(settled, measurement.red, measurement.black) };
  }
  return toMeterReading(read(network, measurement), dimensionOf[at.measure] ?? 'voltage');
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
      return undefined;
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

function toMeterReading(reading: Reading, dimension: Dimension): MeterReading {
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

/** What can happen in either of two states that the tolerances leave open. */
function hull(a: MeterReading, b: MeterReading): MeterReading {
  if (a.state !== 'number' || b.state !== 'number') return a;
  const lower = a.low <= b.low ? a : b;
  const higher = a.high >= b.high ? a : b;
  // The other state needs a combination of its own, so only the ends at nominal values count as reached.
  const both: NumberReading = { ...a, low: lower.low, high: higher.high, lowAt: lower.lowAt, highAt: higher.highAt };
  return { ...both, exact: a.exact && both.low === a.low && both.high === a.high };
}

function sameReading(a: MeterReading, b: MeterReading): boolean {
  if (a.state !== 'number' || b.state !== 'number') return a.state === b.state;
  const near = (x: number, y: number) => Math.abs(x - y) <= 1e-9 * Math.max(1, Math.abs(x), Math.abs(y));
  return near(a.low, b.low) && near(a.high, b.high);
}

function meterKey(at: MeterPlace, meter: Meter): string {
  const lead = (l: MeterPlace['red']) => l && `${l.point.text}|${l.side?.text ?? ''}|${l.backProbe}`;
  const { resistance, current } = meter;
  const settings = [meter.inputOhms, resistance.leadsOhms, resistance.overLimitOhms, current.burdenOhms];
  return [at.measure, lead(at.red), lead(at.black), at.around?.text ?? '', ...settings].join('#');
}
