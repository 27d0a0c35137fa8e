import { errorAt } from '../../analysis/meter-display.ts';
import type { Range } from '../../model/procedure.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { inEachNumericStep, type NumericStep } from './numeric-step.ts';
import { amount, type Region } from './region.ts';

export const finerThanMeter: Rule = {
  id: 'finer-than-meter',
  severity: 'warning',
  group: 'limits',
  on: 'procedure',
  title: 'Limits finer than the meter can tell',
  explanation: `
The range is narrower than the meter's own error, or it asks for fewer ohms than the test leads have themselves. With such limits
a good system fails by chance, or always.

Widen the limits, measure something larger (a voltage drop under load instead of milliohms), or describe a better meter under
\`meter\`. What is said there about resolution, ranges, accuracy and leads is what this check goes by, in the range that the meter
chooses; a common handheld meter of 6,000 counts is taken where nothing is said.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage drop
    red: GND-1
    black: G1.-
    limits: 2 mV .. 4 mV
#           ^^^^^^^^^^^^ warning finer-than-meter: Limits of 2 mV .. 4 mV are finer than the meter can tell
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage drop
    red: GND-1
    black: G1.-
    limits: below 0.1 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check: inEachNumericStep(function* (step) {
    const { meter, limit, limitPlace, leadsOhms } = step;
    if (!meter) return;
    if (limit && limitPlace) {
      const why = tooFine(limit, step, meter, leadsOhms);
      if (why) yield finding(step, limit, limitPlace, 'Limits', why);
    }
    for (const { branch, region } of step.taken) {
      if (branch.match.on !== 'limit') continue;
      const why = tooFine(region, step, meter, leadsOhms);
      if (why) yield finding(step, region, branch.key.place, 'A branch', why);
    }
  }),
};

function tooFine(
  { low, high }: Region,
  { dimension }: NumericStep,
  meter: Range,
  leadsOhms: number,
): string | undefined {
  const shown = (x: number) => amount(Number(x.toPrecision(3)), dimension);
  if (leadsOhms > 0 && high <= leadsOhms) {
    return `The test leads alone have ${shown(leadsOhms)}, so every reading lies above.`;
  }
  if (low > 0 && high < Infinity) {
    const error = errorAt((low + high) / 2, meter);
    if (high - low >= error) return undefined;
    return `They are ${shown(high - low)} wide, and at ${shown((low + high) / 2)} the meter may be wrong by ±${shown(error)}.`;
  }
  const end = high < Infinity ? high : low;
  if (end <= 0 || end === Infinity || (low <= 0 && high === Infinity)) return undefined;
  const error = errorAt(end, meter);
  return end < error ? `At this end the meter may be wrong by ±${shown(error)}.` : undefined;
}

function finding(
  { step, dimension }: NumericStep,
  { low, high }: Region,
  place: Finding['place'],
  what: string,
  why: string,
): Finding {
  const end = (x: number) => amount(x, dimension);
  const range =
    high === Infinity ? `above ${end(low)}` : low <= 0 ? `below ${end(high)}` : `of ${end(low)} .. ${end(high)}`;
  const verb = what === 'Limits' ? 'are' : 'is';
  return {
    rule: 'finer-than-meter',
    place,
    message: `${what} ${range} ${verb} finer than the meter can tell`,
    detail: `${why} In ${name(step.id)} it is then left to chance which branch is taken.`,
    help: 'Widen the limits, or describe a better meter under `meter`.',
  };
}
