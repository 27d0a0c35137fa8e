import { describe, expect, it } from 'vitest';
import type { Nature } from '../../server/src/model/procedure.ts';
import { waysIn } from '../../server/src/proof/entries.ts';
import { naturesOf } from '../../server/src/proof/natures.ts';
import { divider, patientOn, procedureOn } from './support.ts';

/** `symptom at step` for every way in, with the fuses that have gone. */
function entered(entries: string, fault?: string, nature: Nature = 'hard', system = divider): readonly string[] {
  const view = procedureOn(
    `
starts from: [${entries}]
steps: { look: { do: Look, then: a }, read: { do: Read, then: a } }
endings: { a: { no fault: A } }
`,
    system,
  );
  return waysIn(patientOn(view, fault, nature)).map(({ entry, start, ready }) =>
    [entry?.symptom?.text ?? entry?.code?.text, start, ...ready.blown].join(' '),
  );
}

const cold = '{ symptom: cold, set: { key: run }, when: { R1: off } }';

describe('the ways in', () => {
  it('of a fault are those of which it shows the symptom', () => {
    // R1 has half of the supply, which is less than two thirds: a good machine is cold, too. With R2 shorted it has all.
    expect(entered(cold, 'W3 open')).toEqual(['cold look']);
    expect(entered(cold, 'R2 shorted')).toEqual([]);
    expect(entered('{ symptom: hot, set: { key: run }, when: { R1: on } }', 'R2 shorted')).toEqual(['hot look']);
    expect(entered('{ symptom: hot, when: { R1: on } }', 'R2 shorted')).toEqual([]);
  });

  it('are those that show it, whatever the circuit says', () => {
    expect(entered('{ symptom: wet, when: { R1: on }, shows: [hose-P1] }', 'hose-P1 chafed')).toEqual(['wet look']);
    expect(entered('{ symptom: wet, shows: [hose-P1] }', 'W3 open')).toEqual([]);
  });

  it('are those that say nothing of themselves', () => {
    expect(entered('{ symptom: something }, { code: C1, start: read }', 'W3 open')).toEqual([
      'something look',
      'C1 read',
    ]);
  });

  it('are all of them for a machine without a fault', () => {
    expect(entered(`${cold}, { symptom: wet, start: read, nature: intermittent, shows: [hose-P1] }`)).toEqual([
      'cold look',
      'wet read',
    ]);
  });

  it('depend on the nature of the fault', () => {
    const both = '{ symptom: always, nature: hard }, { symptom: at times, nature: intermittent, start: read }';
    expect(entered(both, 'W3 open')).toEqual(['always look']);
    expect(entered(both, 'W3 open', 'intermittent')).toEqual(['at times read']);
    expect(entered(cold, 'W3 open', 'intermittent')).toEqual(['cold look']);
  });

  it('that begin alike are one', () => {
    expect(entered(`${cold}, { symptom: dark }, { code: C1 }`, 'W3 open')).toEqual(['cold look']);
  });

  it('begin with the fuses open that the fault has blown', () => {
    // 12 V through 10 mΩ, for which 5 A · 1.35 are too much.
    expect(entered(cold, 'W3 short to ground')).toEqual(['cold look F1']);
    expect(entered('{ symptom: cold, when: { R1: off } }', 'W3 short to ground')).toEqual(['cold look']);
  });

  it('may be missing altogether', () => {
    const view = procedureOn('steps: { look: { do: Look, then: a } }\nendings: { a: { no fault: A } }');
    expect(waysIn(patientOn(view, 'W3 open'))).toHaveLength(1);
  });
});

describe('the nature of a fault', () => {
  it.each([
    ['W3 open', ['hard', 'intermittent']],
    ['F1 tripped', ['hard']],
    ['R1 drifted', ['hard']],
    ['hose-P1 chafed', ['hard']],
  ])('%s: %s', (fault, expected) => {
    const [found] = patientOn(procedureOn('steps: {}'), fault).faults;
    expect(naturesOf(found!)).toEqual(expected);
  });
});
