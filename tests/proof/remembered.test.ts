/** Walks are kept while what they met is unchanged, and no longer: an hour of typing must not leave an hour of walks behind. */
import { expect, it } from 'vitest';
import type { ProcedureView } from '../../server/src/analysis/view.ts';
import { type ProvedWalk, prove } from '../../server/src/proof/prove.ts';
import { workspaceOf } from '../support/workspace.ts';
import { divider } from './support.ts';

const uri = 'file:///project/some.procedure.yaml';
const text = `format: 1
procedure: some
applies to: { divider.system.yaml: all }
starts from:
  - { symptom: cold, set: { key: run }, when: { R2: off } }
  - { symptom: wet, start: other, shows: [hose-P1] }
start: look
steps:
  look:
    title: Voltage at R2
    set: { key: run }
    measure: voltage
    red: R2.1
    black: GND-1
    limits: 4.5 V .. 7.5 V
    then: { within: good, otherwise: bad }
  other: { inspect: [hose-P1], then: { chafed: { go to: hose, shows: [hose-P1] }, sound: good } }
endings:
  good: { no fault: Nothing was found }
  bad: { replace: [R1] }
  hose: { replace: [hose-P1] }
`;
const workspace = workspaceOf([
  ['file:///project/divider.system.yaml', divider],
  [uri, text],
]);

/** The walk of a fault, once the procedure reads so. */
function walked(fault: string, from = '', to = ''): ProvedWalk | undefined {
  workspace.set(uri, text.replace(from, to));
  return prove(workspace.view(uri) as ProcedureView).walks.find(walk => walk.fault?.id === fault);
}

it('a walk is kept while its steps and its entry are as they were', () => {
  const before = walked('R1 open');
  expect(before?.worst.result).toBe('right');
  expect(walked('R1 open', 'sound: good', 'all sound: good')?.worst).toBe(before?.worst);
  expect(walked('R1 open', 'title: Voltage at R2', 'title: Voltage')?.worst).not.toBe(before?.worst);
});

it('what an earlier wording of its entry led to is not kept', () => {
  const before = walked('R1 open');
  expect(walked('R1 open', 'when: { R2: off }', 'when: { R2: off, R1: off }')?.worst).not.toBe(before?.worst);
  expect(walked('R1 open')?.worst).not.toBe(before?.worst);
});

it('an entry that starts elsewhere is walked anew', () => {
  expect(walked('R1 open')?.worst.end).toMatchObject({ kind: 'ending', name: 'bad' });
  const elsewhere = walked('R1 open', 'when: { R2: off }', 'start: other, when: { R2: off }');
  expect(elsewhere?.worst.end).toMatchObject({ kind: 'ending', name: 'good' });
});

it('so is one that another is put before', () => {
  const before = walked('R1 open');
  const moved = walked('R1 open', '  - { symptom: cold', '  - { symptom: dry, shows: [R2 open] }\n  - { symptom: cold');
  expect([moved?.entry?.symptom?.text, moved?.worst.result]).toEqual(['cold', before?.worst.result]);
});
