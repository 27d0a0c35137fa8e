import { answersOf } from '../../model/meter-answers.ts';
import type { MeasureKind } from '../../model/step.ts';
import { inEachStep } from '../each-step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { joined, name, named } from '../wording.ts';

export const meterAnswers: Rule = {
  id: 'meter-answers',
  severity: 'error',
  group: 'limits',
  on: 'procedure',
  title: 'Answers that a test lamp or a continuity test cannot give, or that lead nowhere',
  explanation: `
A test lamp is \`lit\`, \`dim\` or \`dark\`; a continuity test \`beeps\` or is \`silent\`. Another word is never the answer, and an answer that
no branch takes leaves a technician without an instruction. A lamp that only glows is the one that is forgotten: it tells of a bad contact.

Name each answer, or add \`otherwise\`. From which voltage on a lamp glows and is bright stands under \`meter\`.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: test lamp
    red: E1.1
    black: GND-1
    then: { lit: not-found, dark: ask-the-maker }
#   ^^^^ error meter-answers: \`dim\` leads nowhere in \`look\`
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: test lamp
    red: E1.1
    black: GND-1
    then: { lit: not-found, dim: ask-the-maker, dark: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  check: inEachStep(function* ({ action, branches, thenPlace }, step) {
    const given = branches.filter(b => b.match.on === 'answer').map(b => b.key);
    if (action.verb !== 'measure' || given.length === 0 || !thenPlace) return;
    const possible = answersOf(action.measure);
    if (possible.length === 0) return;
    const unknown = given.filter(({ text }) => !possible.includes(text));
    for (const { text, place } of action.measure === 'test lamp' ? unknown : []) {
      yield {
        rule: 'meter-answers',
        place,
        message: `${titles[action.measure]} is never ${name(text)}`,
        help: `Write ${joined(
          possible.map(one => name(one)),
          'or',
        )}.`,
      };
    }
    const taken = new Set(given.map(({ text }) => text));
    const missing = possible.filter(one => !taken.has(one));
    if (unknown.length > 0 || missing.length === 0 || branches.some(b => b.match.on !== 'answer')) return;
    yield {
      rule: 'meter-answers',
      place: thenPlace,
      message: `${named(missing)} ${missing.length === 1 ? 'leads' : 'lead'} nowhere in ${name(step.id)}`,
      detail: `${titles[action.measure]} may be ${joined(
        possible.map(one => name(one)),
        'or',
      )}, and a technician who comes to an answer without a branch has no instruction.`,
      help: 'Add a branch for it, or `otherwise`.',
    };
  }),
};

const titles: Partial<Record<MeasureKind, string>> = { 'test lamp': 'A test lamp', continuity: 'A continuity test' };
