import type { Network, NodeId } from '../circuit/network.ts';
import { quickLook } from '../circuit/quick-look.ts';
import { read } from '../circuit/reading.ts';
import type { PartKind } from '../model/parts.ts';
import { isOn } from './decide.ts';
import type { Working } from './electrical.ts';
import type { Wiring } from './lower/wiring.ts';
import type { Settled } from './settle.ts';

/**
 * A load does its work from two thirds of the highest supply voltage on, as a lamp that is bright: common practice, no source. One that is
 * dim, or turns slowly, does not.
 */
const worksFrom = 2 / 3;

const loads: ReadonlySet<PartKind> = new Set(['coil', 'heater', 'lamp', 'motor', 'resistor', 'inductor']);
const switching: ReadonlySet<PartKind> = new Set(['relay', 'module', 'led', 'diode', 'transistor']);

/** Whether a name can be said to work at all: a load, a relay, a module, an output of one. */
export function canWork({ parts }: Wiring, name: string): boolean {
  return parts.some(({ part, data }) => {
    if (part.id === name) return loads.has(data.kind) || switching.has(data.kind);
    return data.kind === 'module' && [...data.pins.values()].some(pin => pin.output && `${part.id}.${pin.id}` === name);
  });
}

/** What a load, a relay or an output does in all these states of one machine; what it does at nominal values first. */
export function worksIn(wiring: Wiring, all: readonly Settled[], name: string): readonly Working[] {
  if (!canWork(wiring, name)) return [];
  const kind = wiring.parts.find(({ part }) => part.id === name)?.data.kind;
  const inOne = (one: Settled): readonly Working[] =>
    kind !== undefined && loads.has(kind) ? loadWorks(one, name) : [isOn(one.states, name) ? 'on' : 'off'];
  return [...new Set(all.flatMap(inOne))];
}

function loadWorks({ bent, network, leaky }: Settled, name: string): readonly Working[] {
  const load = endsOf(bent, name);
  if (!load) return ['off'];
  // The drop of a bent part, such as what keeps a loop of 4 mA to 20 mA at its current, is no supply.
  const full = Math.max(0, ...bent.elements.flatMap(e => (e.kind === 'voltage' ? [Math.abs(e.volts.nominal)] : [])));
  if (full === 0) return ['off'];
  const from = worksFrom * full;
  // What was looked at to settle the machine tells it for nothing, but where the voltage is near the mark.
  const look = quickLook(leaky);
  if (look && look.between(load.a, load.b) === undefined) return ['off'];
  const surely = look?.range(load.a, load.b);
  const known = surely && decided(surely, from);
  if (known) return [known];
  const across = read(network, { measure: 'voltage', red: load.a, black: load.b, inputOhms: Number.POSITIVE_INFINITY });
  if (across.state !== 'number') return ['off'];
  const exactly = decided(across, from);
  if (exactly) return [exactly];
  return Math.abs(across.nominal) >= from ? ['on', 'off'] : ['off', 'on'];
}

/** Where a load begins and ends. A lamp or a running motor is two in line, a resistance and what comes on top. */
function endsOf({ elements, bends = [] }: Network, name: string): Ends | undefined {
  const whole = [...bends, ...elements].find(({ id }) => id === name);
  if (whole) return 'a' in whole ? whole : undefined;
  const onTop = bends.find(({ id }) => id === `${name} slope resistance`);
  const first = onTop && elements.find(one => 'a' in one && one.b === onTop.a && one.id.startsWith(`${name} `));
  return first && 'a' in first ? { a: first.a, b: onTop.b } : undefined;
}

interface Ends {
  readonly a: NodeId;
  readonly b: NodeId;
}

/** A load does not mind which way round. */
function decided({ low, high }: { low: number; high: number }, from: number): Working | undefined {
  const least = low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
  if (least >= from) return 'on';
  return Math.max(Math.abs(low), Math.abs(high)) < from ? 'off' : undefined;
}
