import { rangeInWords } from '../../analysis/readings.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { type Judged, judgedSteps, type Outcome } from './judged.ts';

export const readingDependsOnPath: Rule = {
  id: 'reading-depends-on-path',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'A step that lacks a condition its reading needs',
  explanation: `
This step can be reached in more than one way, and the condition it is done in is then not the same: the key may be on or off, a connector
together or apart. A good system passes in one of them and fails in the other.

Say in the step itself what it needs: \`set\` the condition, or \`connect\` what another path has left apart.`,
  bad: lampProcedure(`
start: ask
steps:
  ask: { ask: Is the key on already?, then: { yes: turn-on, no: look } }
  turn-on: { do: Turn the key to run, set: { key: run }, then: look }
  look:
    measure: voltage
#   ^^^^^^^ error reading-depends-on-path: The reading depends on how \`look\` was reached
    red: E1.1
    black: GND-1
    limits: 11.5 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`).replace('start: look\n', ''),
  good: lampProcedure(`
start: ask
steps:
  ask: { ask: Is the key on already?, then: { yes: turn-on, no: look } }
  turn-on: { do: Turn the key to run, set: { key: run }, then: look }
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
`).replace('start: look\n', ''),
  *check(view) {
    for (const judged of judgedSteps(view)) {
      const pair = contrast(judged);
      if (pair) yield finding(judged, pair);
    }
  },
};

/** Two situations of one variant, of which one passes and the other fails. */
function contrast({ outcomes }: Judged): readonly [Outcome, Outcome] | undefined {
  for (const good of outcomes) {
    if (good.verdict !== 'passes' && good.verdict !== 'can fail') continue;
    const bad = outcomes.find(o => o.one === good.one && o.verdict === 'fails');
    if (bad) return [good, bad];
  }
  return undefined;
}

function finding({ step, data }: Judged, [good, bad]: readonly [Outcome, Outcome]): Finding {
  const words = ({ one, situation }: Outcome) => situationInWords(situation, one.circuit.rest) || 'everything at rest';
  const differing = [...good.situation.states].filter(([n, state]) => bad.situation.states.get(n) !== state);
  const [needed] = differing;
  return {
    rule: 'reading-depends-on-path',
    place: data.actionPlace,
    message: `The reading depends on how ${name(step.id)} was reached`,
    detail: `With ${words(good)} a good system reads ${rangeInWords(good.reading)} and passes; with ${words(bad)} it reads ${rangeInWords(bad.reading)} and fails.`,
    help: needed
      ? `Say what the step needs, for example \`set: { ${needed[0]}: ${needed[1]} }\`.`
      : 'Connect in this step what another path has left apart.',
  };
}
