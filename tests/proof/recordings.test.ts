import { describe, expect, it } from 'vitest';
import type { Nature } from '../../server/src/model/procedure.ts';
import { doStep } from '../../server/src/proof/step.ts';
import { systemsByName } from '../support/systems.ts';
import { patientOn, procedureOn, stepOf, told, when } from './support.ts';

const all = 'A1 feed voltage moved first: a, A1 keypad moved first: b, no event: c';

/** What is recorded with the key at run and the button `on` held. */
function recorded(
  fault: string | undefined,
  {
    nature = 'intermittent',
    then = all,
    event = '',
    channels = 'A1 keypad, A1 feed voltage',
    set = 'key: run, S6: on',
    system = 'keypad.system.yaml',
  }: {
    nature?: Nature;
    then?: string;
    event?: string;
    channels?: string;
    set?: string;
    system?: string;
  } = {},
): readonly string[] {
  const view = procedureOn(
    `
steps:
  look:
    set: { ${set} }
    record: { channels: [${channels}], for: 1 min${event} }
    then: { ${then} }
endings: { a: { no fault: A }, b: { no fault: B }, c: { no fault: C } }
`,
    system,
  );
  const patient = patientOn(view, fault, nature);
  const { outcomes } = doStep(patient, stepOf(view), { situation: when(patient), blown: [] });
  return told(outcomes);
}

describe('what a recorder shows', () => {
  it('is what moved with a fault that comes and goes', () => {
    // The keypad goes from 1.8 V (`on`) to 5 V (`idle`); the feed stays.
    expect(recorded('S6.1 open')).toEqual(['A1 keypad moved first: A1 keypad moved first, certain']);
  });

  it('is first what feeds the module where all moves', () => {
    expect(recorded('W2 open')).toEqual(['A1 feed voltage moved first: A1 feed voltage moved first, certain']);
  });

  it('is nothing with a fault that stays, one that is not in the way, or none', () => {
    const nothing = ['no event: no event, certain'];
    expect(recorded('W2 open', { nature: 'hard' })).toEqual(nothing);
    expect(recorded('hose-P1 chafed')).toEqual(nothing);
    expect(recorded(undefined)).toEqual(nothing);
    // 5 V · 18 / 19.5 is 4.6 V, which is `idle`, as an open line is.
    expect(recorded('S6.1 open', { set: 'key: run, S6: idle' })).toEqual(nothing);
  });

  it('is no event while what is waited for does not move', () => {
    expect(recorded('S6.1 open', { event: ', event: { A1 feed voltage: changes }' })).toEqual([
      'no event: no event, certain',
    ]);
    expect(recorded('W2 open', { event: ', event: { A1 keypad: changes }' })).toEqual([
      'A1 feed voltage moved first: A1 feed voltage moved first, certain',
    ]);
  });

  it('is taken by every other branch, or by none', () => {
    expect(recorded('S6.1 open', { then: 'no event: c, otherwise: a' })).toEqual(['otherwise: otherwise, certain']);
    expect(recorded('S6.1 open', { then: 'no event: c' })).toEqual(['stuck: No branch takes `A1 keypad moved first`']);
    expect(recorded(undefined, { then: 'A1 keypad moved first: a' })).toEqual(['stuck: No branch takes `no event`']);
  });

  it('may move on some machines and not on others', () => {
    // 10 Ω in the line of 820 Ω ± 2 % beside 1.5 kΩ ± 1 % at 5 V ± 2 %: 1.767 V become 1.781 V, and 4.9 V · 804 / 2319 are 1.699 V.
    const near = systemsByName
      .get('keypad.system.yaml')!
      .replace('on: 1.4 V .. 2.1 V', 'low: 1 V .. 1.775 V, high: 1.776 V .. 2.1 V');
    expect(recorded('S6.1 high resistance', { system: near })).toEqual([
      'no event: no event, tolerance',
      'A1 keypad moved first: A1 keypad moved first, tolerance',
    ]);
  });

  it('is nothing from a module without power, whatever lies at its pin', () => {
    // With the key off; the wire brings 12 V to the pin, and the module tells no state.
    const off = { set: 'key: off', channels: 'A1 keypad' };
    expect(recorded('W41 short to supply after X12/1', off)).toEqual(['no event: no event, certain']);
  });

  it('begins with the fuse whole that the fault blows', () => {
    const fused = systemsByName
      .get('keypad.system.yaml')!
      .replace('parts:', 'parts:\n  F1: { kind: fuse, rating: 5 A }')
      .replace('W1: G1.+ to S1.1', 'W1: G1.+ to F1.1\n  - W6: F1.2 to S1.1');
    expect(recorded('W2 short to ground', { system: fused })).toEqual([
      'A1 feed voltage moved first: A1 feed voltage moved first, certain',
    ]);
  });
});
