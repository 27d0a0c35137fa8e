import { limitAround } from '../../analysis/limit-around.ts';
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
together or apart. A good system passes in one of them and fails in the other; or limits left to the circuit would have to hold both.

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

/** Two situations of one variant in which the step cannot be the same; those that differ least tell most. */
function contrast(judged: Judged): readonly [Outcome, Outcome] | undefined {
  let nearest: { readonly pair: readonly [Outcome, Outcome]; readonly differences: number } | undefined;
  for (const good of judged.outcomes) {
    for (const bad of judged.outcomes) {
      if (good.one !== bad.one || !isContrast(judged, good, bad)) continue;
      const differences = differingStates(good, bad).length + differingPlugs(good, bad);
      if (!nearest || differences < nearest.differences) nearest = { pair: [good, bad], differences };
    }
  }
  return nearest?.pair;
}

/** One passes and the other fails; or there is room for a fault between the two, where the limits would have to hold both. */
function isContrast({ action, meter, specified }: Judged, good: Outcome, bad: Outcome): boolean {
  if (specified?.marginRatio === undefined)
    return bad.verdict === 'fails' && (good.verdict === 'passes' || good.verdict === 'can fail');
  const [a, b] = [good.reading, bad.reading];
  if (a.state !== 'number') return false;
  if (b.state !== 'number') return b.state === 'over limit';
  const shown = action.verb === 'measure' ? meter : undefined;
  return limitAround([a], 0, a.dimension, shown).high < limitAround([b], 0, b.dimension, shown).low;
}

function differingStates(good: Outcome, bad: Outcome): readonly (readonly [name: string, state: string])[] {
  return [...good.situation.states].filter(([n, state]) => bad.situation.states.get(n) !== state);
}

function differingPlugs(good: Outcome, bad: Outcome): number {
  const [one, other] = [good.situation.apart, bad.situation.apart];
  return [...one].filter(plug => !other.has(plug)).length + [...other].filter(plug => !one.has(plug)).length;
}

function finding({ step, data, specified }: Judged, [good, bad]: readonly [Outcome, Outcome]): Finding {
  const words = ({ one, situation }: Outcome) => situationInWords(situation, one.circuit.rest) || 'everything at rest';
  const needed = differingStates(good, bad).map(([n, state]) => `${n}: ${state}`);
  return {
    rule: 'reading-depends-on-path',
    place: data.actionPlace,
    message: `The reading depends on how ${name(step.id)} was reached`,
    detail:
      specified?.marginRatio === undefined
        ? `With ${words(good)} a good system reads ${rangeInWords(good.reading)} and passes; with ${words(bad)} it reads ${rangeInWords(bad.reading)} and fails.`
        : `With ${words(good)} a good system reads ${rangeInWords(good.reading)}; with ${words(bad)} it reads ${rangeInWords(bad.reading)}. Limits around both let a fault pass.`,
    help:
      needed.length > 0
        ? `Say what the step needs, for example \`set: { ${needed.join(', ')} }\`.`
        : 'Connect in this step what another path has left apart.',
  };
}
