import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { inEachNumericStep, type NumericStep } from './numeric-step.ts';
import { gapsBetween, isEmpty, lowestReading } from './region.ts';

export const branchNeverTaken: Rule = {
  id: 'branch-never-taken',
  severity: 'warning',
  group: 'limits',
  on: 'procedure',
  title: 'A branch that no reading can take',
  explanation: `
No reading is left for this branch: \`below\` without a lower end of the limits, \`above\` without an upper one, ohms below zero,
or an \`otherwise\` when the other branches take every reading already. What stands behind it will never be done from here.

Delete the branch, or correct the limits.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: at least 11.5 V
    then:
      within: lamp-is-bad
      above: ask-the-maker
#     ^^^^^ warning branch-never-taken: No reading can take the branch \`above\`
      below: feed
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
      above: ask-the-maker
      below: feed
  feed: { ask: Is the plug corroded?, then: { yes: ask-the-maker, no: lamp-is-bad } }
endings:
  lamp-is-bad: { refer: Lamp catalogue }
  ask-the-maker: { refer: Ask the maker }
`),
  check: inEachNumericStep(function* (step) {
    for (const { branch, region } of step.taken) {
      if (!isEmpty(region, lowestReading(step.dimension))) continue;
      const why =
        branch.match.on === 'below'
          ? 'The limits have no lower end.'
          : branch.match.on === 'above'
            ? 'The limits have no upper end.'
            : 'No meter shows such a reading here.';
      yield finding(step, branch.key, why);
    }
    if (step.otherwise && takesAll(step))
      yield finding(step, step.otherwise.key, 'The other branches take every reading.');
  }),
};

function takesAll({ taken, data, limit, dimension, meter }: NumericStep): boolean {
  if (!limit && data.branches.some(b => ['within', 'below', 'above'].includes(b.match.on))) return false;
  const regions = taken.map(t => t.region);
  return gapsBetween(regions, dimension, meter).length === 0;
}

function finding({ step }: NumericStep, key: NumericStep['data']['branches'][number]['key'], why: string): Finding {
  return {
    rule: 'branch-never-taken',
    place: key.place,
    message: `No reading can take the branch ${name(key.text)}`,
    detail: `${why} What this branch of ${name(step.id)} leads to is never done from here.`,
    help: 'Delete the branch, or correct the limits.',
  };
}
