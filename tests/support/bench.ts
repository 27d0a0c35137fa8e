import { lampCurve } from '../../server/src/circuit/curves/lamp.ts';
import type { Branch } from './modified-nodal.ts';

/** A value as a file writes it: its nominal value, and the tolerance in percent. */
export interface Worth {
  readonly nominal: number;
  readonly percent: number;
}

/** A part between two nodes; node 0 is the frame. The first node is plus, anode, or where the line of a wire begins. */
export type BenchPart = { readonly id: string; readonly a: number; readonly b: number } & (
  | { readonly kind: 'supply'; readonly volts: Worth; readonly inside: Worth }
  | { readonly kind: 'resistor' | 'wire' | 'fuse'; readonly ohms: Worth }
  | { readonly kind: 'switch'; readonly isClosed: boolean; readonly ohms: Worth }
  | { readonly kind: 'diode'; readonly forward: Worth; readonly ohms: Worth }
  | { readonly kind: 'zener'; readonly forward: Worth; readonly breakdown: Worth; readonly ohms: Worth }
  | { readonly kind: 'lamp'; readonly watts: Worth; readonly cold: Worth }
  | {
      readonly kind: 'table';
      readonly points: readonly (readonly [volts: number, amps: number])[];
      readonly percent: number;
    }
);

/** Lamps are for this voltage. */
const ratedV = 12;
/** Ohms on top of the forward voltage of a zener diode, for each ampere (common practice, no source): what the product takes. */
const forwardOhms = 0.05;

/** The system as an author would write it: nodes are splices, ends of parts hang on them by wires without resistance. */
export function systemText(parts: readonly BenchPart[], nodeCount: number): string {
  const point = (node: number) => (node === 0 ? 'GND-0' : `N${node}`);
  const lines = parts.map(part => {
    const [a, b] = part.kind === 'diode' || part.kind === 'zener' ? ['A', 'K'] : ['1', '2'];
    const ends = part.kind === 'supply' ? ['+', '-'] : [a, b];
    if (part.kind === 'wire')
      return [`  - ${part.id}: ${point(part.a)} to ${point(part.b)}, ${written(part.ohms, 'Ω')}`];
    return [part.a, part.b].map((node, i) => `  - ${part.id}-${i + 1}: ${part.id}.${ends[i]} to ${point(node)}`);
  });
  return [
    'format: 1',
    'system: bench',
    'conditions: { key: [off, run] }',
    'parts:',
    ...parts.filter(({ kind }) => kind !== 'wire').map(part => `  ${part.id}: ${declared(part)}`),
    'grounds: { GND-0: { title: Frame } }',
    `splices: { ${Array.from({ length: nodeCount - 1 }, (_, i) => `N${i + 1}: Node ${i + 1}`).join(', ')} }`,
    'wires:',
    ...lines.flat(),
    '',
  ].join('\n');
}

function declared(part: BenchPart): string {
  switch (part.kind) {
    case 'supply':
      return `{ kind: supply, voltage: ${written(part.volts, 'V')}, internal resistance: ${written(part.inside, 'Ω')} }`;
    case 'switch':
      return `{ kind: switch, closed: { key: ${part.isClosed ? 'off' : 'run'} }, contact resistance: ${written(part.ohms, 'Ω')} }`;
    case 'diode':
      return `{ kind: diode, forward voltage: ${written(part.forward, 'V')}, resistance: ${written(part.ohms, 'Ω')} }`;
    case 'zener':
      return `{ kind: zener, forward voltage: ${written(part.forward, 'V')}, zener voltage: ${written(part.breakdown, 'V')}, resistance: ${written(part.ohms, 'Ω')} }`;
    case 'lamp':
      return `{ kind: lamp, voltage: ${ratedV} V, power: ${written(part.watts, 'W')}, cold resistance: ${written(part.cold, 'Ω')} }`;
    case 'table': {
      const points = part.points.map(([volts, nominal]) => {
        const amps = nominal === 0 ? '0 A' : written({ nominal, percent: part.percent }, 'A');
        return `{ at: ${volts} V, is: ${amps} }`;
      });
      return `{ kind: two-terminal, table: [${points.join(', ')}] }`;
    }
    default:
      return `{ kind: ${part.kind}, resistance: ${written(part.ohms, 'Ω')} }`;
  }
}

function written({ nominal, percent }: Worth, unit: string): string {
  return percent === 0 ? `${nominal} ${unit}` : `${nominal} ${unit} ± ${percent} %`;
}

/** Where a value is in its range: by the name under which the product tells it. */
export type Choice = (name: string, range: Ends) => number;

export interface Ends {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
}

/** One piece of a curve, between two voltages across the part: open without `ohms`. */
export interface Piece {
  readonly fromV: number;
  readonly toV: number;
  readonly volts?: number;
  readonly ohms?: number;
}

export interface Curve {
  readonly id: string;
  readonly a: number;
  readonly b: number;
  readonly pieces: readonly Piece[];
}

export interface Flat {
  readonly nodeCount: number;
  readonly straight: readonly (Branch & { readonly id: string })[];
  readonly curves: readonly Curve[];
}

/** One machine: every value as it is chosen. */
export function machineOf(parts: readonly BenchPart[], nodeCount: number, choose: Choice): Flat {
  const straight: (Branch & { id: string })[] = [];
  const curves: Curve[] = [];
  let nodes = nodeCount;
  const value = (name: string, { nominal, percent }: Worth, factor = 1) => {
    const reach = Math.abs(nominal * percent) / 100;
    return choose(name, {
      low: (nominal - reach) * factor,
      nominal: nominal * factor,
      high: (nominal + reach) * factor,
    });
  };
  for (const part of parts) {
    const { id, a, b } = part;
    switch (part.kind) {
      case 'supply':
        straight.push({
          id,
          a,
          b,
          volts: value(id, part.volts),
          ohms: value(`${id} internal resistance`, part.inside),
        });
        break;
      case 'switch':
        if (part.isClosed) straight.push({ id, a, b, volts: 0, ohms: value(`${id} contact`, part.ohms) });
        break;
      case 'diode': {
        const volts = value(`${id} drop`, part.forward);
        curves.push({ id, a, b, pieces: [open(-infinite, volts), line(volts, infinite, volts, value(id, part.ohms))] });
        break;
      }
      case 'zener': {
        const forward = value(`${id} forward`, part.forward);
        const breakdown = -value(`${id} breakdown`, part.breakdown);
        const backwards = line(-infinite, breakdown, breakdown, value(id, part.ohms));
        const pieces = [backwards, open(breakdown, forward), line(forward, infinite, forward, forwardOhms)];
        curves.push({ id, a, b, pieces });
        break;
      }
      case 'lamp': {
        const ranged = ({ nominal, percent }: Worth) => ({
          low: nominal * (1 - percent / 100),
          nominal,
          high: nominal * (1 + percent / 100),
        });
        // The pieces are the product's own: its curve is held against published values elsewhere, here it is how they are put together.
        const { seriesOhms, segments } = lampCurve(ratedV, ranged(part.watts), ranged(part.cold));
        const inside = nodes++;
        straight.push({ id, a, b: inside, volts: 0, ohms: choose(`${id} cold resistance`, seriesOhms) });
        const place = choose(`${id} slope resistance`, { low: 0, nominal: 0.5, high: 1 });
        const pieces = segments.map(segment => {
          if (segment.kind === 'open') return open(-infinite, infinite);
          const { volts, ohms, fromV = -infinite, toV = infinite } = segment;
          const { low, nominal, high } = ohms;
          const is = place === 0.5 ? nominal : low + place * (high - low);
          return line(volts.nominal + fromV, volts.nominal + toV, volts.nominal, is);
        });
        curves.push({ id, a: inside, b, pieces });
        break;
      }
      case 'table': {
        const scale = value(`${id} scale`, { nominal: 1, percent: part.percent });
        const pieces = part.points.slice(1).map(([toV, toA], i) => {
          const [fromV, fromA] = part.points[i]!;
          const [first, last] = [i === 0, i === part.points.length - 2];
          const [start, end] = [first ? -infinite : fromV, last ? infinite : toV];
          if (fromA === toA) return open(start, end);
          const slope = (toV - fromV) / (toA - fromA);
          return line(start, end, fromV - slope * fromA, slope / scale);
        });
        curves.push({ id, a, b, pieces });
        break;
      }
      default:
        straight.push({ id, a, b, volts: 0, ohms: value(id, part.ohms) });
    }
  }
  return { nodeCount: nodes, straight, curves };
}

const infinite = Number.POSITIVE_INFINITY;

function open(fromV: number, toV: number): Piece {
  return { fromV, toV };
}

function line(fromV: number, toV: number, volts: number, ohms: number): Piece {
  return { fromV, toV, volts, ohms };
}
