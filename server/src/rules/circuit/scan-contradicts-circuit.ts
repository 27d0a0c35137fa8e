import { situationsAt } from '../../analysis/readings.ts';
import type { Case } from '../../analysis/view.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import { partIn } from '../../model/parts.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { joined, name } from '../wording.ts';
import { ways } from './judged.ts';

export const scanContradictsCircuit: Rule = {
  id: 'scan-contradicts-circuit',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'Scan data that a good system never shows',
  explanation: `
The module decodes this state from the voltage at a pin, and with the circuit in the system file that voltage stands for another state under
the conditions of this step. Each good machine fails the step.

Correct \`expect\`, or set the condition that the state belongs to.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run, S6: on }
    read: A1 keypad
    expect: idle
#           ^^^^ error scan-contradicts-circuit: A good system shows \`on\` here, not \`idle\` [fix]
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The keypad answers }
  ask-the-maker: { refer: Ask the maker }
`).replace('lamp.system', 'keypad.system'),
  good: lampProcedure(`
steps:
  look:
    set: { key: run, S6: on }
    read: A1 keypad
    expect: on
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The keypad answers }
  ask-the-maker: { refer: Ask the maker }
`).replace('lamp.system', 'keypad.system'),
  *check(view) {
    for (const step of view.procedure.steps.values()) {
      for (const [data, cases] of ways(step, view.cases)) {
        const { action } = data;
        if (action.verb !== 'read' || !action.expect || !action.module || !action.datum) continue;
        const { expect, module, datum } = action;
        const [place] = expect.map(e => e.place);
        for (const one of cases) {
          // A state that the datum does not have is told as an unknown name.
          if (!expect.every(e => statesOf(one, module.text, datum.text).includes(e.text))) continue;
          const wrong = situationsAt(one, data).find(now => {
            const shown = one.circuit.scan(module.text, datum.text, now);
            return shown !== undefined && !expect.some(e => e.text === shown);
          });
          const shown = wrong && one.circuit.scan(module.text, datum.text, wrong);
          if (!place || !wrong || shown === undefined) continue;
          const words = situationInWords(wrong, one.circuit.rest) || 'everything at rest';
          yield {
            rule: 'scan-contradicts-circuit',
            place,
            message: `A good system shows ${name(shown)} here, not ${joined(
              expect.map(e => name(e.text)),
              'or',
            )}`,
            detail: `With ${words} the voltage at the pin of ${name(datum.text)} stands for ${name(shown)}.`,
            help: `Expect ${name(shown)}, or set the condition that the state belongs to.`,
            fixes: expect.length === 1 ? [{ title: `Expect \`${shown}\``, edits: [{ place, text: shown }] }] : [],
          };
          break;
        }
      }
    }
  },
};

function statesOf({ system, variant }: Case, module: string, datum: string): readonly string[] {
  const part = system.parts.get(module);
  const data = part && partIn(part, variant);
  return data?.kind === 'module' ? (data.scanData.get(datum)?.states.map(s => s.name.text) ?? []) : [];
}
