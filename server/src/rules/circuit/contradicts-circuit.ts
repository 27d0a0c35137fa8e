import { formatLimit } from '../../base/quantity/limit.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { circumstances, type HeldAgainst, type Outcome } from './judged.ts';
import { heldAgainst } from './judged-rows.ts';
import { endInWords, rangeOf, useTheCircuit } from './range-words.ts';

export const contradictsCircuit: Rule = {
  id: 'limits-contradict-circuit',
  severity: 'error',
  group: 'circuit',
  on: 'any',
  title: 'Limits that a good system never meets',
  explanation: `
The circuit in the system file gives readings that lie wholly outside these limits, whatever the parts are inside their tolerances. Each
good machine fails this step, and a technician is sent to mend what is not broken.

Either the limits are wrong (take the circuit's own range), or the step lacks a condition (the key is off, a connector is still apart), or
the leads are at another point than meant, or the system file does not describe the machine. A row of a specification table is held against the
circuit in the same way, in the system file, in the situation that the row describes and with a common handheld meter.

With \`limits: from the circuit\` the two can never disagree.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 4.5 V .. 5.5 V
#           ^^^^^^^^^^^^^^ error limits-contradict-circuit: A good system reads 12.08 V .. 12.9 V here and never meets these limits [fix]
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
    limits: 11.5 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    for (const held of heldAgainst(view)) {
      const failing = held.outcomes.filter(o => o.verdict === 'fails');
      // Where it passes on another path, the path is to blame: see `reading-depends-on-path`.
      const always = failing.filter(o => !held.outcomes.some(p => p.one === o.one && p.verdict === 'passes'));
      if (always.length > 0) yield finding(held, always);
    }
  },
};

function finding(held: HeldAgainst, failing: readonly Outcome[]): Finding {
  const { limit, place } = held;
  const [{ reading }] = failing as [Outcome];
  const given = reading.state === 'number' ? rangeOf(reading) : '`OL`';
  const ends =
    reading.state === 'number'
      ? `: lowest ${endInWords(reading, 'low')}, highest ${endInWords(reading, 'high')}`
      : ': no path joins the leads';
  return {
    rule: 'limits-contradict-circuit',
    place,
    message: `A good system reads ${given} here and never meets these limits`,
    detail: `${circumstances(failing, held)} the circuit gives ${given}${ends}. The limits of ${name(held.name)} are ${limit ? formatLimit(limit) : 'not known'}.`,
    help: "Use the circuit's range, or set what it needs, or correct the leads.",
    related: held.related,
    fixes: useTheCircuit(held),
  };
}
