import type { NumberReading } from '../../analysis/electrical.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import { formatLimit, type Limit } from '../../base/quantity/limit.ts';
import type { Meter } from '../../model/procedure.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { circumstances, type HeldAgainst, numbers, type Outcome } from './judged.ts';
import { heldAgainst } from './judged-rows.ts';
import { endInWords, endOf, rangeOf, useTheCircuit } from './range-words.ts';

export const goodSystemCanFail: Rule = {
  id: 'good-system-can-fail',
  severity: 'warning',
  group: 'circuit',
  on: 'any',
  title: 'Limits that some good systems miss',
  explanation: `
With the parts and the supply inside their tolerances, the circuit can give readings on both sides of these limits. Some good machines fail
this step, and a good part is replaced. The message names the combination that does it.

Widen the limits to the circuit's own range, or make the step's condition narrower, so that the range becomes narrower. Rows of
specification tables are held against the circuit as well, in the system file. Limits left to the circuit (\`from the circuit\`) always
let a good machine pass.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 12.5 V .. 13 V
#           ^^^^^^^^^^^^^^ warning good-system-can-fail: A good system can read down to 12.08 V, below these limits [fix]
    then: { within: not-found, otherwise: ask-the-maker }
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
    limits: 12 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    for (const held of heldAgainst(view)) {
      if (held.limit && isWithinLeads(held.limit, held.meter)) continue;
      const unsure = held.outcomes.filter(o => o.verdict === 'can fail');
      if (unsure.length > 0 && !held.outcomes.some(o => o.verdict === 'fails')) yield finding(held, unsure);
    }
  },
};

/** Fewer ohms than the test leads have are told as finer than the meter. */
function isWithinLeads({ dimension, high }: Limit, { resistance }: Meter): boolean {
  return dimension === 'resistance' && high <= resistance.leadsOhms;
}

function finding(held: HeldAgainst, unsure: readonly Outcome[]): Finding {
  const { limit, place } = held;
  const [{ reading }] = numbers(unsure) as [Outcome & { reading: NumberReading }];
  const end = endOutside(reading, limit);
  const value = endOf(reading, end);
  const where = end === 'low' ? `down to ${value}, below` : `up to ${value}, above`;
  return {
    rule: 'good-system-can-fail',
    place,
    message: `A good system can read ${where} these limits`,
    detail: `${circumstances(unsure, held)} the circuit gives ${rangeOf(reading)}, nominal ${formatQuantity(reading.nominal, reading.dimension)}; it reads ${endInWords(reading, end)}. The limits of ${name(held.name)} are ${limit ? formatLimit(limit) : 'not known'}.`,
    help: "Use the circuit's range, or make the tolerances in the system file those of the real parts.",
    related: held.related,
    fixes: useTheCircuit(held),
  };
}

/** The end that lies further outside, measured against the width of the range. */
function endOutside({ attained }: NumberReading, limit: Limit | undefined): 'low' | 'high' {
  const beyond = (a: number, b: number) => (a === b ? 0 : a - b);
  const below = limit ? beyond(limit.low, attained.low) : 0;
  const above = limit ? beyond(attained.high, limit.high) : 0;
  return below >= above ? 'low' : 'high';
}
