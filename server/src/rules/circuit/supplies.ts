import { sourceVolts } from '../../analysis/lower/parts/battery.ts';
import { type PartData, partIn } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';

/** What the supplies of a system give at most, in volts; not a number where one of them has no voltage. */
export interface SupplyVolts {
  /** Of all added up: more than that is nowhere in the system. */
  readonly sum: number;
  readonly highest: number;
}

export function supplyVolts(system: System, variant: string): SupplyVolts {
  const known = perSystem.get(system) ?? new Map<string, SupplyVolts>();
  perSystem.set(system, known);
  const before = known.get(variant);
  if (before) return before;
  const each = [...system.parts.values()].map(part => highestOf(partIn(part, variant)));
  const volts = { sum: each.reduce((all, one) => all + one, 0), highest: Math.max(0, ...each) };
  known.set(variant, volts);
  return volts;
}

const perSystem = new WeakMap<System, Map<string, SupplyVolts>>();

function highestOf(data: PartData): number {
  if (data.kind === 'battery' || data.kind === 'supply') {
    const ends = sourceVolts(data)?.cases.flatMap(c => [Math.abs(c.is.low), Math.abs(c.is.high)]) ?? [Number.NaN];
    return Math.max(...ends);
  }
  if (data.kind !== 'module') return 0;
  const pins = [...data.pins.values()];
  return Math.max(
    0,
    ...pins.flatMap(p => [p.pullUp?.toV.high ?? 0, p.output === 'supply' ? (p.supplyV?.high ?? 5) : 0]),
  );
}
