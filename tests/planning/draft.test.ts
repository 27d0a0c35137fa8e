import { describe, expect, it } from 'vitest';
import type { ProcedureView, SystemView } from '../../server/src/analysis/view.ts';
import { timeSpent } from '../../server/src/planning/compare.ts';
import { isShownByGood } from '../../server/src/planning/draft/complaint.ts';
import { draft } from '../../server/src/planning/draft/draft.ts';
import { tryDraft } from '../../server/src/planning/draft/try-draft.ts';
import { nextAt } from '../../server/src/planning/next.ts';
import { coverageOf } from '../../server/src/proof/coverage.ts';
import { prove } from '../../server/src/proof/prove.ts';
import { checkFile } from '../../server/src/rules/run.ts';
import { systemsByName } from '../support/systems.ts';
import { viewsOf } from '../support/workspace.ts';

const file = 'heater.system.yaml';
const system = systemsByName.get(file)!;
const cold = { symptom: 'heater stays cold', set: [['key', 'run']], when: [['H1', 'off']] } as const;

function benchIn(text: string) {
  const view = viewsOf([[`test:/${file}`, text]])(`test:/${file}`) as SystemView;
  return { system: view.system, variant: view.system.variants[0]!, circuit: view.circuit(view.system.variants[0]!) };
}

function procedureIn(text: string, on = system): ProcedureView {
  const views = viewsOf([
    [`test:/${file}`, on],
    ['test:/draft.procedure.yaml', text],
  ]);
  return views('test:/draft.procedure.yaml') as ProcedureView;
}

describe('a draft', () => {
  const drafted = draft(cold, benchIn(system), file);
  const view = procedureIn(drafted.text);

  it('is clean under every rule, the walk of every fault included', () => {
    expect(checkFile(view).map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
  });

  it('ends for every fault at a repair that names its owner', () => {
    const [coverage] = coverageOf(prove(view));
    const { walks, covered } = coverage!.figures;
    expect(walks).toBe(drafted.suspects);
    expect(covered.part).toBe(walks);
  });

  it('looks first, tries the complaint, and confirms the repair', () => {
    expect([...view.procedure.steps.keys()].slice(0, 2)).toEqual(['look', 'try-it']);
    const repairs = [...view.procedure.endings.values()].filter(({ data }) => data.items.length > 0);
    expect(repairs.length).toBeGreaterThan(3);
    expect(repairs.every(({ data }) => data.confirm?.text === 'confirm')).toBe(true);
  });

  it('takes no fewer minutes than its bound', () => {
    expect(drafted.minutes).toBeGreaterThanOrEqual(drafted.lowerBound - 1e-9);
  });

  it('is not asked for where a good machine does the same', () => {
    expect(isShownByGood(cold, benchIn(system))).toBe(false);
    expect(isShownByGood({ ...cold, set: [] }, benchIn(system))).toBe(true);
  });

  it('spends its minutes at the steps that its walks come by', () => {
    const spent = timeSpent(prove(view), view.cases[0]!);
    expect(spent.walks).toBe(drafted.suspects);
    expect(spent.steps.reduce((sum, { minutes }) => sum + minutes, 0)).toBeCloseTo(spent.meanMinutes, 9);
    expect(spent.steps.find(({ step }) => step === 'look')!.reached).toBeCloseTo(1, 9);
  });
});

describe('what a draft is made from', () => {
  const hose = (id: string) => `  ${id}: { kind: item, title: Hose, fails: { chafed: Leaks when warm } }\n`;

  it('may have items of the same title, which are told apart by their names', () => {
    const hoses = system.replace('connectors:', `${hose('H2')}${hose('H3')}connectors:`);
    const { text } = draft({ ...cold, symptom: 'It "stays": cold # ä 🔥\n' }, benchIn(hoses), file);
    expect(text).toContain('      Hose chafed (H3): { go to: replace-H3, shows: [H3 chafed] }\n');
    expect(checkFile(procedureIn(text, hoses)).map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
  });

  it('is not enough where only eyes could find the fault', () => {
    const hoses = system.replace('connectors:', `${hose('H2')}connectors:`);
    expect(tryDraft({ ...cold, when: [['H1', 'purple']] }, benchIn(hoses), file).refused?.because).toBe('no fault');
  });
});

describe('the next test', () => {
  const view = procedureIn(draft(cold, benchIn(system), file).text);

  it('is ranked by what it tells per minute, for the suspects that are left', () => {
    const proof = prove(view);
    const next = nextAt(view, view.cases[0]!, 'try-it', proof)!;
    expect(next.suspects.length).toBeGreaterThan(20);
    const rates = next.tests.map(({ bitsPerMinute }) => bitsPerMinute);
    expect(rates).toEqual([...rates].sort((a, b) => b - a));
    for (const { total, minutes, splits } of next.tests) {
      expect(total.atLeast).toBeLessThanOrEqual(total.atMost);
      expect(total.atLeast).toBeGreaterThanOrEqual(minutes);
      expect(splits.reduce((sum, { suspects }) => sum + suspects, 0)).toBe(next.suspects.length);
    }
  });

  it('is none at a step that no way leads to', () => {
    expect(nextAt(view, view.cases[0]!, 'nowhere')).toBeUndefined();
  });
});
