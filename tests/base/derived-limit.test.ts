import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDerived, parseDerived } from '../../server/src/base/quantity/derived-limit.ts';

describe('limits that are left to the circuit', () => {
  it.each([
    ['from the circuit', 0],
    ['from the circuit, with 2 % margin', 0.02],
    ['from the circuit, with 2.5% margin', 0.025],
    ['from the circuit, with 2,5 % margin', 0.025],
    ['  from the circuit ', 0],
  ])('%s', (text, marginRatio) => {
    expect(parseDerived(text)).toEqual({ value: marginRatio });
  });

  it.each([
    ['from circuit', '`from circuit` is written `from the circuit`', 'from the circuit'],
    ['circuit', '`circuit` is written `from the circuit`', 'from the circuit'],
    ['From the circuit ± 5 %', '`From the circuit ± 5 %` is written `from the circuit, with 5 % margin`', undefined],
    ['from the circuit, with a margin of 3 %', '`from the circuit, with …` is written', undefined],
    ['from the circuit, with -2 % margin', 'The margin `-2 %` has the wrong sign', 'from the circuit, with 2 % margin'],
    ['from the circuit, with 2 margin', 'The unit is missing after `2`', 'from the circuit, with 2 % margin'],
    ['from the circuit, with 2 V margin', '`2 V` is a voltage; a margin is in percent', ''],
    ['from the circuit, with 120 % margin', 'A margin of `120 %` lets every reading pass', ''],
    ['2 V margin', '`2 V margin` does not say where the limits come from', ''],
    ['from the', '`from the` does not say where the limits come from', 'from the circuit'],
    ['from the circuit, with', '`from the circuit, with` does not say where', 'from the circuit'],
    ['computed', '`computed` does not say where the limits come from', 'from the circuit'],
  ])('%s: %s', (text, message, suggestion) => {
    const problem = parseDerived(text)?.problem;
    expect(problem?.message).toContain(message);
    expect(problem?.help).toMatch(/^Write .*\.$/);
    if (suggestion !== undefined) expect(problem?.suggestion ?? '').toBe(suggestion);
    expect(problem!.message.length).toBeLessThanOrEqual(90);
  });

  it.each(['from 4 V to 5 V', '4 V .. 5 V', 'above 4.4 V', 'OL', ''])('%j is none of them', text => {
    expect(parseDerived(text)).toBeUndefined();
  });

  it('are written as they are read', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9999 }), tenths => {
        const marginRatio = tenths / 10000;
        expect(parseDerived(formatDerived(marginRatio))?.value).toBeCloseTo(marginRatio, 9);
      }),
    );
  });

  it('point into the text, however much of it is typed', () => {
    const whole = 'from the circuit, with 2.5 % margin';
    for (let length = 0; length <= whole.length; length++) {
      const text = whole.slice(0, length);
      const { start, end, suggestion } = parseDerived(text)?.problem ?? { start: 0, end: 0 };
      expect([start >= 0, end <= text.length, start <= end]).toEqual([true, true, true]);
      if (suggestion !== undefined) expect(parseDerived(suggestion)?.problem).toBeUndefined();
    }
  });
});
