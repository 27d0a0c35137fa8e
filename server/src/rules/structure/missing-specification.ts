import { dimensionOf } from '../../model/read-step.ts';
import type { StepData } from '../../model/step.ts';
import { find } from '../../syntax/tree.ts';
import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import { addDerivedLimits } from '../fixes.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

export const missingSpecification: Rule = {
  id: 'missing-specification',
  severity: 'error',
  group: 'structure',
  on: 'procedure',
  title: 'A reading without a word on what is good',
  explanation: `
The step asks for a reading and says nowhere what a good system shows: no \`limits\`, no \`specification\`, and no ranges in its
branches. A technician would have to guess.

Add \`limits\`, or \`specification\` with the row of a table in the system file. A step that reads a state from a module takes
\`expect\`. The quick fix leaves the limits to the circuit, \`from the circuit\`, and the editor shows beside them what they come to.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
#   ^^^^^^^ error missing-specification: Step \`look\` does not say which reading is good [fix]
    red: E1.1
    black: GND-1
    then: not-found
endings:
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: at least 11.5 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check: inEachStep(function* (data, step) {
    // A key without a value yet is told about by the shape of the file.
    if (['limits', 'specification', 'expect'].some(key => find(step.entry.value, key))) return;
    if (!asksForNumber(data) || saysWhatIsGood(data)) return;
    yield {
      rule: 'missing-specification',
      place: data.actionPlace,
      message: `Step ${name(step.id)} does not say which reading is good`,
      detail: 'It has no limits and no specification, and its branches name no range either.',
      help: 'Add `limits`, or `specification` with a row of a table in the system file.',
      fixes: addDerivedLimits(step, data.action),
    };
  }),
};

function asksForNumber({ action }: StepData): boolean {
  if (action.verb === 'read') return true;
  return action.verb === 'measure' && dimensionOf[action.measure] !== undefined;
}

/** Branches by range or by state say it; those by `within` are told about by a rule of their own. */
function saysWhatIsGood({ action, branches }: StepData): boolean {
  if (branches.length === 0) return true;
  if ((action.verb === 'measure' || action.verb === 'read') && action.limits) return true;
  return branches.some(b => ['limit', 'answer', 'within', 'below', 'above'].includes(b.match.on));
}
