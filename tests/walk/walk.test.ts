import { describe, expect, it } from 'vitest';
import { arrivalOf } from '../../server/src/walk/situations.ts';
import { answer, coursesOf, follow, type Walk } from '../../server/src/walk/walk.ts';
import { lamp, procedureFor, walkOf } from './support.ts';

const view = lamp(`
steps:
  look: { set: { key: off }, inspect: [W4], then: { wire chafed: mend-W4, all sound: clean } }
  clean: { do: Clean the plug, disconnect: [X1], then: volts }
  volts:
    set: { key: run }
    connect: [X1]
    measure: voltage
    red: E1.1 (back-probe)
    black: GND-1
    limits: 11.8 V .. 13.1 V
    then: { within: replace-lamp, otherwise: feed-is-bad, below 0.1 V: }
  try: { operate: Switch the lamp on, then: { bright: done, dark: look, flickers: gone-since } }
endings:
  mend-W4: { mend: [W4], confirm: try }
  replace-lamp: { replace: [E1], confirm: try }
  feed-is-bad: { refer: Feed of the lamp switch }
  done: { repaired: The lamp is bright }
`);

const start = walkOf(view);
const give = (walk: Walk, ...texts: string[]) => texts.reduce(answer, walk);
const where = ({ at }: Walk) => `${at.kind} ${at.name}`;

describe('a walk', () => {
  it('starts where the way in says', () => {
    expect(where(start)).toBe('step look');
    expect(where(walkOf(view, 'L01'))).toBe('step volts');
    expect(where(walkOf(view, 'lamp stays dark'))).toBe('step look');
  });

  it('goes through an instruction without an answer, and tells each step once', () => {
    const walk = give(start, 'all sound', '', '12.4 V');
    expect(where(walk)).toBe('ending replace-lamp');
    expect(walk.passed.map(({ from, text }) => [from.name, text])).toEqual([
      ['look', 'all sound'],
      ['clean', ''],
      ['volts', '12.4 V'],
    ]);
  });

  it('goes from a repair to its confirmation, and from there to the end', () => {
    const repaired = give(start, 'wire chafed');
    expect(repaired.at).toMatchObject({ kind: 'ending', confirm: 'try' });
    const over = give(repaired, '', 'bright');
    expect(where(over)).toBe('ending done');
    expect(over.at).toMatchObject({ confirm: undefined });
    expect(give(over, 'again').refused?.problem.message).toBe('The procedure is over at `done`');
  });

  it('may come to a step again, as often as somebody wants to', () => {
    const round = ['wire chafed', '', 'dark'];
    const walk = give(start, ...round, ...round, ...round);
    expect([where(walk), walk.passed.length]).toEqual(['step look', 9]);
  });

  it('stands where it stood when an answer is refused, and goes on from there', () => {
    const walk = give(start, 'all sund');
    expect([where(walk), walk.passed.length]).toEqual(['step look', 0]);
    expect(where(give(walk, 'all sound'))).toBe('step clean');
  });

  it('says so where a branch leads nowhere, and where its target is not there', () => {
    expect(give(start, 'all sound', '', '0.05 V').at).toMatchObject({
      kind: 'nowhere',
      problem: { message: 'The branch `below 0.1 V` of `volts` leads nowhere' },
    });
    expect(give(start, 'wire chafed', '', 'flickers').at).toMatchObject({
      kind: 'nowhere',
      problem: { message: 'No step or ending is called `gone-since`' },
    });
  });

  it('says so where a step does not exist in the variant', () => {
    const varied = procedureFor(
      'lamp-variants.system.yaml',
      `
steps:
  look: { ask: Is there a dimmer?, then: { yes: dimmer, no: fine } }
  dimmer: { only: with-dimmer, inspect: [R1], then: { burnt: fine, sound: fine } }
endings:
  fine: { no fault: Fine }
`,
    );
    const [plain, dimmed] = coursesOf(varied).map(course => give(walkOf(varied, undefined, course), 'yes'));
    expect(plain!.at).toMatchObject({ problem: { message: '`dimmer` does not exist in variant `plain`' } });
    expect(where(dimmed!)).toBe('step dimmer');
  });
});

describe('following answers', () => {
  const answers = [
    { at: 'look', text: 'all sound' },
    { at: 'clean', text: '' },
    { at: 'volts', text: '9.1 V' },
  ];

  it('takes them all while they are about the steps that are met', () => {
    expect(where(follow(start, answers))).toBe('ending feed-is-bad');
  });

  it('keeps the walk as far as it still holds after the procedure has changed', () => {
    const walk = follow(start, [answers[0]!, answers[2]!]);
    expect(where(walk)).toBe('step clean');
    expect(walk.refused).toEqual({
      answer: { at: 'volts', text: '9.1 V' },
      problem: { message: 'The walk no longer comes to `volts`' },
    });
  });
});

describe('what holds along a walk', () => {
  it('is what the steps have set and taken apart', () => {
    const atClean = arrivalOf(give(start, 'all sound'))!;
    expect([...atClean.before.apart, ...atClean.after.apart]).toEqual(['X1']);
    const atVolts = arrivalOf(give(start, 'all sound', ''))!;
    expect([...atVolts.before.apart]).toEqual(['X1']);
    expect([...atVolts.after.apart]).toEqual([]);
    expect([atVolts.before.states.get('key'), atVolts.after.states.get('key')]).toEqual(['off', 'run']);
  });

  it('is not known without a system', () => {
    const alone = procedureFor(
      'not-there.system.yaml',
      'steps:\n  look: { ask: Yes?, then: { yes: end } }\nendings:\n  end: { no fault: Fine }\n',
    );
    expect(arrivalOf(walkOf(alone))).toBeUndefined();
    expect(where(give(walkOf(alone), 'yes'))).toBe('ending end');
  });
});
