import { formatLimit } from '../../base/quantity/limit.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { circumstances, type Judged, judgedSteps, type Outcome } from './judged.ts';
import { endInWords, rangeOf, useCircuitsRange } from './range-words.ts';

export const contradictsCircuit: Rule = {
  id: 'limits-contradict-circuit',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'Limits that a good system never meets',
  explanation: `
The circuit in the system file gives readings that lie wholly outside these limits, whatever the parts are inside their tolerances. Each
good machine fails this step, and a technician is sent to mend what is not broken.

Either the limits are wrong (take the circuit's own range), or the step lacks a condition (the key is off, a connector is still apart), or
the leads are at another point than meant, or the system file does not describe the machine.`,
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
    for (const judged of judgedSteps(view)) {
      const failing = judged.outcomes.filter(o => o.verdict === 'fails');
      // Where it passes on another path, the path is to blame: see `reading-depends-on-path`.
      const always = failing.filter(o => !judged.outcomes.some(p => p.one === o.one && p.verdict === 'passes'));
      if (always.length > 0) yield finding(judged, always);
    }
  },
};

function finding(judged: Judged, failing: readonly Outcome[]): Finding {
  const { limit, step, view, place } = judged;
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
    detail: `${circumstances(failing, view)} the circuit gives ${given}${ends}. The limits of ${name(step.id)} are ${limit ? formatLimit(limit) : 'not known'}.`,
    help: "Use the circuit's range, or set what the step needs, or correct the leads.",
    fixes: useCircuitsRange(judged, judged.outcomes),
  };
}
