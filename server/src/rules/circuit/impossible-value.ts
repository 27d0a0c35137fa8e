import { formatQuantity } from '../../base/quantity/format.ts';
import type { Limit } from '../../base/quantity/limit.ts';
import type { Place } from '../../model/common.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { type Judged, judgedSteps } from './judged.ts';
import { supplyVolts } from './supplies.ts';

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
      const highest = Math.max(...judged.outcomes.map(o => supplyVolts(o.one.system, o.one.variant).sum));
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
