import { describe, expect, it } from 'vitest';
import { answer, type Walk } from '../../server/src/walk/walk.ts';
import { lamp, procedureFor, walkOf } from './support.ts';

/** One measuring step with these lines, and what a reading there leads to. */
function measuring(lines: string, measure = 'voltage') {
  const view = lamp(`
steps:
  look:
    measure: ${measure}
    red: E1.1
    black: GND-1
${lines}
endings:
  good: { no fault: Good }
  low: { refer: Low }
  high: { refer: High }
  rest: { refer: Rest }
`);
  return (text: string) => answer(walkOf(view), text);
}

function ends({ at, refused }: Walk): string | undefined {
  return refused ? undefined : at.name;
}

const reasonOf = ({ passed, refused }: Walk) => refused?.problem.message ?? passed.at(-1)?.why;

describe('a reading at a step with limits', () => {
  const give = measuring(`
    limits: 4.71 V .. 4.93 V
    then: { within: good, below: low, above: high }`);

  it.each([
    // An end of the limits passes; how the number is spelt does not matter.
    ['4.71 V', 'good', '`4.71 V` is within 4.71 V .. 4.93 V'],
    ['4.93 V', 'good', '`4.93 V` is within 4.71 V .. 4.93 V'],
    ['4930 mV', 'good', '`4930 mV` is within 4.71 V .. 4.93 V'],
    ['4,8 V', 'good', '`4,8 V` is within 4.71 V .. 4.93 V'],
    ['  4.8 V ', 'good', '`4.8 V` is within 4.71 V .. 4.93 V'],
    ['4.70 V', 'low', '`4.70 V` is below 4.71 V'],
    ['-0.2 V', 'low', '`-0.2 V` is below 4.71 V'],
    ['4.94 V', 'high', '`4.94 V` is above 4.93 V'],
    ['OL', 'high', '`OL` is above 4.93 V'],
    ['ol', 'high', '`ol` is above 4.93 V'],
  ])('%s', (text, ending, why) => {
    const walk = give(text);
    expect([ends(walk), reasonOf(walk)]).toEqual([ending, why]);
  });

  it.each([
    ['4.8', 'The unit is missing after `4.8`', '4.8 V'],
    ['4.8 Ω', '`4.8 Ω` is a resistance; a voltage is expected', undefined],
    ['4.8 V .. 4.9 V', 'One value is expected here, not a range: `4.8 V .. 4.9 V`', undefined],
    ['', 'A reading is missing', undefined],
    ['about five', 'A number is expected, not `about`', undefined],
  ])('is not taken as %j', (text, message, suggestion) => {
    const walk = give(text);
    expect(walk.refused?.problem).toMatchObject({ message, ...(suggestion && { suggestion }) });
    expect([walk.at.name, walk.passed]).toEqual(['look', []]);
  });
});

describe('ranges of their own', () => {
  const give = measuring(`
    limits: 1.55 V .. 2.05 V
    then: { within: good, below 0.3 V: low, above 4.4 V: high, otherwise: rest }`);

  it.each([
    ['0.299 V', 'low', '`0.299 V` is below 0.3 V'],
    ['0.3 V', 'rest', '`0.3 V` is not within 1.55 V .. 2.05 V'],
    ['4.4 V', 'rest', '`4.4 V` is not within 1.55 V .. 2.05 V'],
    ['4.41 V', 'high', '`4.41 V` is above 4.4 V'],
    ['OL', 'high', '`OL` is above 4.4 V'],
  ])('%s', (text, ending, why) => {
    const walk = give(text);
    expect([ends(walk), reasonOf(walk)]).toEqual([ending, why]);
  });
});

describe('one-sided limits and OL', () => {
  it('every other reading, OL included, takes `otherwise`', () => {
    const give = measuring('    limits: below 1 Ω\n    then: { within: good, otherwise: rest }', 'resistance');
    expect(ends(give('0.4 Ω'))).toBe('good');
    expect(reasonOf(give('1 Ω'))).toBe('`1 Ω` is at least 1 Ω');
    expect(reasonOf(give('OL'))).toBe('`OL` is over the limit of the meter');
    expect(ends(give('OL'))).toBe('rest');
  });

  it('only OL is within `OL`', () => {
    const give = measuring('    limits: OL\n    then: { within: good, otherwise: rest }', 'resistance');
    expect([ends(give('OL')), reasonOf(give('OL'))]).toEqual(['good', '`OL` is over the limit of the meter']);
    expect([ends(give('39 MΩ')), reasonOf(give('39 MΩ'))]).toEqual([
      'rest',
      '`39 MΩ` is not over the limit of the meter',
    ]);
  });

  it('`at least` takes its own end, and what is under it is told as such', () => {
    const give = measuring('    limits: at least 11.5 V\n    then: { within: good, otherwise: rest }');
    expect(reasonOf(give('11.5 V'))).toBe('`11.5 V` is at least 11.5 V');
    expect(reasonOf(give('11.49 V'))).toBe('`11.49 V` is below 11.5 V');
  });
});

describe('no branch, or more than one', () => {
  it('names the branches where there is a gap', () => {
    const give = measuring('    limits: 2 V .. 3 V\n    then: { within: good, below 1 V: low }');
    expect(give('1.5 V').refused?.problem).toEqual({
      message: 'No branch takes `1.5 V`',
      detail: 'The branches are `within` (2 V .. 3 V), `below 1 V`.',
      help: 'Add `otherwise`, or let a branch reach further.',
    });
  });

  it('goes nowhere when two branches lead to different places, whatever their order', () => {
    const give = measuring('    limits: 2 V .. 3 V\n    then: { below 2.5 V: low, within: good }');
    expect(reasonOf(give('2.2 V'))).toBe('Two branches take `2.2 V`: `below 2.5 V` and `within`');
    expect(ends(give('2.6 V'))).toBe('good');
  });

  it('goes on when two branches lead to the same place', () => {
    const give = measuring('    limits: 2 V .. 3 V\n    then: { below 2.5 V: good, within: good }');
    expect(ends(give('2.2 V'))).toBe('good');
  });

  it('does not guess limits that are not known', () => {
    const give = measuring('    then: { within: good, otherwise: rest }');
    expect(reasonOf(give('2.2 V'))).toBe('`within` refers to limits that are not known');
  });
});

describe('answers and states', () => {
  const view = lamp(`
steps:
  look: { inspect: [W4], then: { wire chafed: low, all sound: good } }
endings:
  good: { no fault: Good }
  low: { refer: Low }
`);

  it('an answer is taken as written, and a slip gets a suggestion', () => {
    expect(ends(answer(walkOf(view), 'wire chafed'))).toBe('low');
    expect(answer(walkOf(view), 'wire chaffed').refused?.problem).toMatchObject({
      message: 'The step has no answer `wire chaffed`',
      suggestion: 'wire chafed',
    });
  });

  it('a state that is expected is within, every other known one is not', () => {
    const keypad = keypadReading('then: { within: good, otherwise: low }');
    expect(keypad('on')).toEqual(['good', '`on` is expected']);
    expect(keypad('idle')).toEqual(['low', '`idle` is not `on`']);
    expect(keypad('of')).toEqual([undefined, 'The step has no state `of`']);
  });

  it('a number in the scan data is a reading like any other', () => {
    const volts = keypadReading('then: { within: good, otherwise: low }', 'feed voltage', 'limits: at least 11.5 V');
    expect(volts('12.4 V')).toEqual(['good', '`12.4 V` is at least 11.5 V']);
    expect(volts('on')).toEqual([undefined, 'A number is expected, not `on`']);
  });

  function keypadReading(then: string, datum = 'keypad', expected = 'expect: on') {
    const procedure = procedureFor(
      'keypad.system.yaml',
      `
steps:
  look:
    read: A1 ${datum}
    ${expected}
    ${then}
endings:
  good: { no fault: Good }
  low: { refer: Low }
`,
    );
    return (text: string) => [ends(answer(walkOf(procedure), text)), reasonOf(answer(walkOf(procedure), text))];
  }
});

describe('an answer at a test lamp', () => {
  const give = measuring('    then: { lit: good, otherwise: rest }', 'test lamp');

  it('is one of the three that a lamp gives, whether the step names it or not', () => {
    expect(ends(give('lit'))).toBe('good');
    expect(ends(give('dim'))).toBe('rest');
    expect(ends(give('dark'))).toBe('rest');
  });

  it('is told where no branch takes it', () => {
    const told = measuring('    then: { lit: good, dark: low }', 'test lamp')('dim');
    expect(told.refused?.problem.message).toBe('The step has no answer `dim`');
    expect(told.refused?.problem.detail).toBe('Its answers are `lit`, `dark`.');
  });
});

describe('a continuity test', () => {
  it('answers by its sound where the branches say so, else by its ohms', () => {
    const heard = measuring('    then: { beeps: good, silent: low }', 'continuity');
    expect([ends(heard('beeps')), ends(heard('silent'))]).toEqual(['good', 'low']);
    const shown = measuring('    limits: below 30 Ω\n    then: { within: good, otherwise: rest }', 'continuity');
    expect([ends(shown('2 Ω')), ends(shown('OL'))]).toEqual(['good', 'rest']);
  });
});
