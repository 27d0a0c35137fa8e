import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { inEachNumericStep, type NumericStep, type Taken } from './numeric-step.ts';
import { described, isEmpty, lowestReading, overlap } from './region.ts';

export const overlappingBranches: Rule = {
  id: 'overlapping-branches',
  severity: 'error',
  group: 'limits',
  on: 'procedure',
  title: 'Two branches that take the same reading',
  explanation: `
The same reading falls into two branches that lead to different places. Two technicians with the same reading would do different
things; the order in which the branches are written does not decide.

Let one branch end where the other one begins.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11.5 V .. 13 V
    then:
      within: lamp-is-bad
      below 12 V: feed
#     ^^^^^^^^^^ error overlapping-branches: \`below 12 V\` and \`within\` take the same readings
      above: ask-the-maker
  feed: { ask: Is the plug corroded?, then: { yes: ask-the-maker, no: lamp-is-bad } }
endings:
  lamp-is-bad: { refer: Lamp catalogue }
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
    then:
      within: lamp-is-bad
      below: feed
      above: ask-the-maker
  feed: { ask: Is the plug corroded?, then: { yes: ask-the-maker, no: lamp-is-bad } }
endings:
  lamp-is-bad: { refer: Lamp catalogue }
  ask-the-maker: { refer: Ask the maker }
`),
  check: inEachNumericStep(function* (step) {
    const floor = lowestReading(step.dimension);
    const taken = step.taken.filter(t => !isEmpty(t.region, floor));
    for (const [i, later] of taken.entries()) {
      const earlier = taken.slice(0, i).find(other => meets(other, later));
      if (earlier) yield finding(step, earlier, later);
    }
  }),
};

/** Two branches that lead to the same place do no harm. */
function meets(a: Taken, b: Taken): boolean {
  return a.branch.target?.text !== b.branch.target?.text && overlap(a.region, b.region) !== undefined;
}

function finding({ step, dimension }: NumericStep, earlier: Taken, later: Taken): Finding {
  const common = overlap(earlier.region, later.region)!;
  const [own, other] = [later.branch.key.text, earlier.branch.key.text];
  const nowhere = { text: 'nowhere' };
  const [there, elsewhere] = [later.branch.target ?? nowhere, earlier.branch.target ?? nowhere];
  return {
    rule: 'overlapping-branches',
    place: later.branch.key.place,
    message: `${name(own, 24)} and ${name(other, 24)} take the same readings`,
    detail:
      `In ${name(step.id)} a reading ${described(common, dimension)} leads to ${name(there.text)} by the one ` +
      `and to ${name(elsewhere.text)} by the other.`,
    help: 'Let one of them end where the other begins.',
    related: [{ place: earlier.branch.key.place, message: `${name(other)} takes them as well` }],
  };
}
