import { describe, expect, it } from 'vitest';
import type { ProcedureView } from '../../server/src/analysis/view.ts';
import { type StepAsked, stepFor } from '../../server/src/features/next-step.ts';
import { checkFile } from '../../server/src/rules/run.ts';
import { systemsByName } from '../support/systems.ts';
import { viewsOf } from '../support/workspace.ts';

const uri = 'test:/keypad-dead.procedure.yaml';
const procedure = `format: 1
procedure: keypad-dead
applies to: { keypad.system.yaml: all }
starts from: [{ symptom: keypad is dead }]
start: feed
steps:
  feed:
    set: { key: run }
    measure: voltage
    red: A1.1 (back-probe)
    black: G1.-
    limits: from the circuit
    then: { within: maker, otherwise: maker } # as ever
  at-A1-14: { operate: Press a button, then: { beeps: maker, silent: maker } }
endings:
  maker: { refer: Ask the maker }
`;

function viewOf(text: string): ProcedureView {
  const system = systemsByName.get('keypad.system.yaml')!.replace('parts:\n', `parts:\n  lid: ${lid}\n`);
  const views = viewsOf([
    ['test:/keypad.system.yaml', system],
    [uri, text],
  ]);
  return views(uri) as ProcedureView;
}

const lid = '{ kind: item, title: Lid, fails: { broken: Lid broken } }';
const measured: StepAsked = {
  step: 'feed',
  variant: 'standard',
  test: { do: 'measure', red: 'A1.14', black: 'G1.-' },
  minutes: 2,
};

/** The procedure with the step in it, its branches led to an ending. */
function withStep(asked: StepAsked, text = procedure): { step: string; whole: string } {
  const { offset, text: step, cursor } = stepFor(viewOf(text), asked)!;
  expect(step.slice(0, cursor)).toMatch(/: $/);
  return { step, whole: text.slice(0, offset) + step.replace(/: $/gm, ': maker') + text.slice(offset) };
}

describe('a step for a test', () => {
  it('stands behind the whole line of the other step, under a name that is free, in its situation', () => {
    const { step, whole } = withStep(measured);
    expect(step).toBe(`  at-A1-14-2:
    title: Voltage at A1.14 against G1.-
    minutes: 2
    set: { key: run }
    measure: voltage
    red: A1.14 (back-probe)
    black: G1.-
    limits: from the circuit
    then:
      within: 
      otherwise: 
`);
    expect(whole).toContain('# as ever\n  at-A1-14-2:\n');
    const found = checkFile(viewOf(whole)).map(({ rule }) => rule);
    expect([...new Set(found)].sort()).toEqual(['reading-makes-no-difference', 'unreachable-step']);
  });

  it('reads scan data and expects what a good machine shows', () => {
    const { step } = withStep({ ...measured, test: { do: 'read', module: 'A1', datum: 'keypad' } });
    expect(step).toMatch(/^ {2}read-A1-keypad:\n[\s\S]* {4}read: A1 keypad\n {4}expect: idle\n {4}then:\n {6}within: /);
  });

  it('looks at an item with a branch for each way in which it fails', () => {
    const { step, whole } = withStep({ ...measured, test: { do: 'inspect', item: 'lid' } });
    expect(step).toMatch(/ {4}inspect: \[lid\]\n {4}then:\n {6}broken: \n {6}all sound: \n$/);
    expect(
      viewOf(whole)
        .procedure.steps.get('look-at-lid')
        ?.data.branches.map(({ target }) => target?.text),
    ).toEqual(['maker', 'maker']);
  });

  it('begins a line of its own where the text ends with the other step', () => {
    const [head = '', rest = ''] = procedure.split('steps:\n');
    const [steps = '', endings = ''] = rest.split('endings:\n');
    const last = `${head}endings:\n${endings}steps:\n${steps}`.trimEnd();
    const { whole } = withStep({ ...measured, step: 'at-A1-14' }, last);
    expect(viewOf(whole).procedure.steps.has('at-A1-14-2')).toBe(true);
  });

  it('is not written where the steps stand in braces, nor for what is not there', () => {
    const braces = procedure.replace(
      /steps:\n[\s\S]*endings:/,
      'steps: { feed: { ask: Is it dead, then: { yes: maker } } }\nendings:',
    );
    expect(stepFor(viewOf(braces), measured)).toBeUndefined();
    expect(stepFor(viewOf(procedure), { ...measured, step: 'fly' })).toBeUndefined();
    expect(stepFor(viewOf(procedure), { ...measured, variant: 'long' })).toBeUndefined();
  });
});
