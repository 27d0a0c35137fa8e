import { describe, expect, it } from 'vitest';
import { rules } from '../../server/src/rules/index.ts';
import { checkFile } from '../../server/src/rules/run.ts';
import { syntaxProblems } from '../../server/src/syntax/problems.ts';
import { viewOf } from '../support/check.ts';
import { uriOf } from '../support/fixture.ts';
import { systemsByName } from '../support/systems.ts';
import { workspaceOf } from '../support/workspace.ts';
import { procedure } from './fixtures/procedures.ts';

const oneAnswer = procedure(`
steps:
  look: { inspect: [W4], then: { all sound: one } }
  one: { inspect: [W3], then: { all sound: fine } }
endings:
  fine: { no fault: Nothing wrong }
`);

describe('the list of rules', () => {
  it('has every id once', () => {
    expect(new Set(rules.map(r => r.id)).size).toBe(rules.length);
  });

  it('has a page for every mistake in the text itself', () => {
    const ids = new Set(rules.map(r => r.id));
    expect(Object.keys(syntaxProblems).filter(id => !ids.has(id))).toEqual([]);
  });
});

describe('checking a file', () => {
  it('finds things in the order of the text', () => {
    const view = viewOf(oneAnswer);
    const starts = checkFile(view).map(f => view.tree.absolute(f.place.span).start);
    expect(starts).toHaveLength(2);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  it('gives each finding the severity of its rule, or the one that is set for it', () => {
    const view = viewOf(oneAnswer);
    expect(checkFile(view).map(f => f.severity)).toEqual(['warning', 'warning']);
    expect(checkFile(view, new Map([['single-answer', 'hint']])).map(f => f.severity)).toEqual(['hint', 'hint']);
    expect(checkFile(view, new Map([['single-answer', 'off']]))).toEqual([]);
  });

  it('does not call an allowance unused while its rule is off', () => {
    const view = viewOf(`${oneAnswer}allow: { unreachable-step: { because: Kept for later } }\n`);
    const rulesFound = (levels?: Parameters<typeof checkFile>[1]) => checkFile(view, levels).map(f => f.rule);
    expect(rulesFound()).toContain('unused-allowance');
    expect(rulesFound(new Map([['unreachable-step', 'off']]))).not.toContain('unused-allowance');
  });

  it('says nothing about what is missing while a part of the text is not understood', () => {
    const view = viewOf(oneAnswer.replace('one: {', 'one: { {'));
    expect(checkFile(view).map(f => f.rule)).not.toContain('unknown-name');
  });

  it('sees that a thing is used as soon as a procedure names it', () => {
    const system = [...systemsByName.get('lamp.system.yaml')!]
      .join('')
      .replace('grounds:', 'grounds:\n  GND-9: { title: Cab }');
    const uri = uriOf('/lamp.system.yaml');
    const steps = oneAnswer.trimStart();
    const workspace = workspaceOf([
      [uri, system],
      [uriOf('/a.procedure.yaml'), steps],
    ]);
    const found = () => checkFile(workspace.view(uri)!).map(f => f.message);
    expect(found()).toContain('Nothing names the ground `GND-9`');
    workspace.set(uriOf('/a.procedure.yaml'), steps.replace('inspect: [W3]', 'inspect: [GND-9]'));
    expect(found()).not.toContain('Nothing names the ground `GND-9`');
  });
});

describe('an edit of one step among many', () => {
  const count = 1000;
  const steps = Array.from({ length: count }, (_, i) => {
    const next = i + 1 < count ? `step-${i + 1}` : 'fine';
    return `  step-${i}:
    title: Voltage at the lamp, once more
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11.5 V .. 13.5 V
    then:
      within: ${next}
      below 0.5 V: ask
      otherwise: ask
`;
  });
  const text = (limits: string) => `format: 1
procedure: long
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: step-0
steps:
${steps.join('').replace(/(step-500:[\s\S]*?limits: )[^\n]*/, `$1${limits}`)}endings:
  ask: { refer: Ask the maker }
  fine: { no fault: Nothing wrong }
`;
  const uri = uriOf('/long.procedure.yaml');
  const workspace = workspaceOf([
    [uri, text('11.5 V .. 13.5 V')],
    [uriOf('/lamp.system.yaml'), systemsByName.get('lamp.system.yaml')!],
  ]);

  it('keeps what was found in the others', () => {
    const before = checkFile(workspace.view(uri)!);
    workspace.set(uri, text('11.5 V .. 11.51 V'));
    const narrow = checkFile(workspace.view(uri)!).filter(f => !before.includes(f));
    expect(narrow.map(f => f.rule)).toContain('finer-than-meter');
    workspace.set(uri, text('11.5 V .. 13.5 V'));
    expect(checkFile(workspace.view(uri)!).map(f => f.message)).toEqual(before.map(f => f.message));
  });
});
