import { describe, expect, it } from 'vitest';
import type { Nature } from '../../server/src/model/procedure.ts';
import { byAnswer } from '../../server/src/proof/answers.ts';
import { divider, patientOn, procedureOn, stepOf, told, when } from './support.ts';

/** What is answered with the key at run. */
function answered(
  step: string,
  fault?: string,
  nature: Nature = 'hard',
  isPresent = nature === 'hard',
  system = divider,
): readonly string[] {
  const view = procedureOn(
    `
steps: { look: { ${step} } }
endings: { a: { no fault: A }, b: { no fault: B }, c: { no fault: C } }
`,
    system,
  );
  const patient = patientOn(view, fault, nature);
  return told(
    byAnswer(
      patient,
      stepOf(view),
      when(patient, { key: 'run' }),
      patient.effect(isPresent && fault !== undefined, []),
    ),
  );
}

describe('an answer that shows something', () => {
  const inspected =
    'inspect: [R1, hose-P1], then: { burnt: { go to: a, shows: [R1] }, wet: { go to: b, shows: [hose-P1] }, sound: c }';
  const operated = inspected.replace('inspect: [R1, hose-P1]', 'operate: Turn the key');

  it.each([
    ['is given where only eyes find the fault', inspected, 'hose-P1 chafed', 'hard', ['wet: wet, certain']],
    [
      'may be given at an inspection of a circuit',
      inspected,
      'R1 open',
      'hard',
      ['burnt: burnt, either', 'sound: sound, either'],
    ],
    ['is given where the machine is operated', operated, 'R1 open', 'hard', ['burnt: burnt, certain']],
    [
      'may be given of what comes and goes',
      operated,
      'R1 open',
      'intermittent',
      ['burnt: burnt, either', 'sound: sound, either'],
    ],
    ['is not given of another fault', inspected, 'W3 open', 'hard', ['sound: sound, certain']],
    ['is not given of a good machine', operated, undefined, 'hard', ['sound: sound, certain']],
  ] as const)('%s', (_, step, fault, nature, expected) => {
    expect(answered(step, fault, nature)).toEqual(expected);
  });
});

describe('an answer that says what the machine does', () => {
  // R2 has at least 4.95 V of 12 V, and at most 7.15 V: less than two thirds.
  const load =
    'operate: Turn the key, then: { works: { go to: a, when: { R2: on } }, does not: { go to: b, when: { R2: off } } }';

  it('is given where it holds', () => {
    expect(answered(load)).toEqual(['does not: does not, certain']);
    // Without R1 in the way R2 has the whole supply.
    expect(answered(load, 'R1 shorted')).toEqual(['works: works, certain']);
    expect(answered(load, 'R1 shorted', 'intermittent', false)).toEqual(['does not: does not, certain']);
  });

  // Twice the ohms of R2 have 8 V of 12 V, which is two thirds; at least 11 V · 180 / 290 and at most 13 V · 220 / 310.
  const open = divider.replace('R1: { kind: resistor, resistance: 100 Ω', 'R1: { kind: resistor, resistance: 200 Ω');
  const onValues = (step: string) => answered(step, undefined, 'hard', false, open);

  it('may be given or not where the values decide', () => {
    expect(onValues(load.replace(/R2/g, 'R1'))).toEqual(['works: works, tolerance', 'does not: does not, tolerance']);
    const step = 'operate: Turn the key, then: { works: { go to: a, when: { R1: on } }, otherwise: b }';
    expect(onValues(step)).toEqual(['works: works, tolerance', 'otherwise: otherwise, tolerance']);
  });

  it('may be given by no one where only the values speak for it', () => {
    const step = (load: string) => `operate: Turn the key, then: { works: { go to: a, when: { ${load}: on } } }`;
    expect(onValues(step('R1'))).toEqual(['works: works, tolerance', 'none: , tolerance']);
    expect(onValues(step('R2'))).toEqual(['stuck: No answer fits what the machine does here']);
  });

  it('may be given beside one that surely is', () => {
    const both =
      'operate: Turn the key, then: { hot: { go to: a, when: { R1: on } }, cold: { go to: b, when: { R2: off } } }';
    expect(onValues(both)).toEqual(['cold: cold, tolerance', 'hot: hot, tolerance']);
  });
});

describe('an answer that says nothing of itself', () => {
  it('is as good as any other such', () => {
    expect(answered('ask: Is it warm?, then: { yes: a, no: b }', 'R1 open')).toEqual([
      'yes: yes, open',
      'no: no, open',
    ]);
  });

  it('is not given where another surely is', () => {
    const step = 'operate: Turn the key, then: { dead: { go to: a, when: { R2: off } }, otherwise: b }';
    expect(answered(step, 'W3 open')).toEqual(['dead: dead, certain']);
    expect(answered(step, 'R1 shorted')).toEqual(['otherwise: otherwise, certain']);
  });
});
