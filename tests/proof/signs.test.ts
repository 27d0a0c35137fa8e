import { describe, expect, it } from 'vitest';
import { signHolds, statesShown } from '../../server/src/proof/signs.ts';
import { patientOn, procedureOn, stepOf, when } from './support.ts';

/** What a test on the keypad's machine says, with the key at run. */
function holds(test: string, set: Readonly<Record<string, string>> = { key: 'run' }, fault?: string) {
  const view = procedureOn(
    `
steps: { look: { operate: Turn the key, then: { seen: { go to: a, when: ${test} }, not seen: a } } }
endings: { a: { no fault: A } }
`,
    'keypad.system.yaml',
  );
  const patient = patientOn(view, fault);
  const [branch] = stepOf(view).branches;
  return signHolds(branch!.when!, patient.circuit, when(patient, set), patient.effect(fault !== undefined, []));
}

describe('a test of what the machine does', () => {
  it.each([
    ['{ key: run }', true],
    ['{ key: off }', false],
    // The keypad at rest has 18 kΩ behind 1.5 kΩ: 5 V · 18 / 19.5 is 4.6 V; with 820 Ω it is 1.8 V.
    ['{ A1 keypad: idle }', true],
    ['{ A1 keypad: [on, off] }', false],
    ['[{ A1 keypad: on }, { key: run }]', true],
    ['{ A1 keypad: idle, key: off }', false],
    ['{ A1: on }', true],
    // 12.6 V ± 0.4 V, less than 0.1 V of which stays in the wires.
    ['{ A1 feed voltage: above 12 V }', true],
    ['{ A1 feed voltage: below 9 V }', false],
    ['{ A1 feed voltage: above 12.6 V }', undefined],
    ['{ A1 feed voltage: above 12.6 V, key: off }', false],
    ['[{ A1 feed voltage: above 12.6 V }, { key: run }]', true],
  ])('%s: %s', (test, expected) => {
    expect(holds(test)).toBe(expected);
  });

  it('sees the machine as the fault leaves it', () => {
    expect(holds('{ A1 feed voltage: below 9 V }', { key: 'run' }, 'W2 open')).toBe(true);
    expect(holds('{ A1: on }', { key: 'run' }, 'W2 open')).toBe(false);
    expect(holds('{ A1 keypad: idle }', { key: 'run', S6: 'on' })).toBe(false);
    expect(holds('{ A1 keypad: idle }', { key: 'run', S6: 'on' }, 'S6.1 open')).toBe(true);
  });

  it('is not met by names that show nothing', () => {
    const view = procedureOn('steps: {}', 'keypad.system.yaml');
    const patient = patientOn(view);
    expect(statesShown('hose-P1', patient.circuit, when(patient), undefined)).toEqual([]);
    expect(statesShown('A1 nothing', patient.circuit, when(patient), undefined)).toEqual([]);
  });
});
