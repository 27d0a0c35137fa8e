import { describe, expect, it } from 'vitest';
import { answer, coursesOf } from '../../server/src/walk/walk.ts';
import { lamp, procedureFor, walkOf } from './support.ts';

/*
 * By hand: in the system file 12.2 V .. 13 V drive 10 Ω ± 5 % through 20 mΩ of switch and some 70 mΩ of wires and contacts, so the
 * lamp has 12.08 V .. 12.9 V; the meter is off by 0.5 % and 2 steps of 10 mV there: 12 V .. 12.99 V.
 */
const steps = (limits: string, then = '{ within: good, below: low, above: high }') => `
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: ${limits}
    then: ${then}
endings:
  good: { no fault: Good }
  low: { refer: Low }
  high: { refer: High }
  rest: { refer: Rest }
`;

describe('a walk past limits from the circuit', () => {
  it.each([
    ['12.00 V', 'good', '`12.00 V` is within 12 V .. 12.99 V'],
    ['12.99 V', 'good', '`12.99 V` is within 12 V .. 12.99 V'],
    ['11.99 V', 'low', '`11.99 V` is below 12 V'],
    ['13.00 V', 'high', '`13.00 V` is above 12.99 V'],
    ['OL', 'high', '`OL` is above 12.99 V'],
  ])('%s leads to %s', (text, ending, why) => {
    const { at, passed } = answer(walkOf(lamp(steps('from the circuit'))), text);
    expect([at.name, passed.at(-1)?.why]).toEqual([ending, why]);
  });

  it('goes by what the circuit gives in its variant', () => {
    const view = procedureFor('lamp-variants.system.yaml', steps('from the circuit'));
    const [plain, dimmed] = coursesOf(view).map(course => answer(walkOf(view, undefined, course), '10.5 V').at.name);
    // Behind a dimmer of 2 Ω the lamp has 10.5 V, and without it more than 12 V.
    expect([plain, dimmed]).toEqual(['low', 'good']);
  });

  it('stops where the circuit gives none, and says why', () => {
    const open = steps('from the circuit')
      .replace('voltage', 'resistance')
      .replace('key: run', 'key: off')
      .replace('GND-1', 'S1.1 (back-probe)');
    const { refused, at } = answer(walkOf(lamp(open)), '5 Ω');
    expect([at.name, refused?.problem.message]).toEqual(['look', '`within` refers to limits that are not known']);
    expect(refused?.problem.detail).toMatch(/^The circuit gives .*\.$/);
  });

  it('takes a branch of its own range all the same', () => {
    const none = steps('from the circuit', '{ below 5 V: low, otherwise: rest }');
    expect(answer(walkOf(procedureFor('gone.system.yaml', none)), '3 V').at.name).toBe('low');
  });
});
