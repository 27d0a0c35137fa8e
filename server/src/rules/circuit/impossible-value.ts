import { sourceVolts } from '../../analysis/lower/parts/battery.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { Limit } from '../../base/quantity/limit.ts';
import type { Place } from '../../model/common.ts';
import { type PartData, partIn } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { type Judged, judgedSteps } from './judged.ts';

export const impossibleValue: Rule = {
  id: 'impossible-value',
  severity: 'warning',
  group: 'circuit',
  on: 'procedure',
  title: 'A voltage that no supply of the system can give',
  explanation: `
All supplies of the system file in series would not give this voltage, so no reading ever reaches it, with or without a fault. Often a decimal
point slipped, or mV and V were mixed up.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11 V .. 13 V
    then:
      within: not-found
      above 130 V: ask-the-maker
#     ^^^^^^^^^^^ warning impossible-value: No supply can give 130 V here
      otherwise: ask-the-maker
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11 V .. 13 V
    then:
      within: not-found
      otherwise: ask-the-maker
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    for (const judged of judgedSteps(view)) {
      const highest = Math.max(...judged.outcomes.map(o => supplySum(o.one.system, o.one.variant)));
      if (!(highest > 0) || !Number.isFinite(highest)) continue;
      yield* beyond(judged, highest);
    }
  },
};

function* beyond({ data, limit, place, step }: Judged, highest: number): Generator<Finding> {
  const written: readonly (readonly [Limit | undefined, Place])[] = [
    [limit, place],
    ...data.branches.map(b => [b.match.on === 'limit' ? b.match.limit : undefined, b.key.place] as const),
  ];
  for (const [found, at] of written) {
    if (found?.dimension !== 'voltage') continue;
    const value = found.low > highest ? found.low : found.high < -highest ? found.high : undefined;
    if (value === undefined || !Number.isFinite(value)) continue;
    yield {
      rule: 'impossible-value',
      place: at,
      message: `No supply can give ${formatQuantity(value, 'voltage')} here`,
      detail: `All supplies of the system together give ${formatQuantity(highest, 'voltage')} at most, and ${name(step.id)} asks for more.`,
      help: 'Correct the value or its unit.',
    };
  }
}

/** The highest voltages of all supplies added up; more than that is nowhere in the system. */
function supplySum(system: System, variant: string): number {
  const known = sums.get(system) ?? new Map<string, number>();
  sums.set(system, known);
  const sum =
    known.get(variant) ?? [...system.parts.values()].reduce((all, p) => all + highestOf(partIn(p, variant)), 0);
  known.set(variant, sum);
  return sum;
}

const sums = new WeakMap<System, Map<string, number>>();

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
