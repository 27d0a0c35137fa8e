/** Drafts from the systems of the examples: as clean as what a person wrote, and every fault that shows the complaint is found. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { ProcedureView, SystemView } from '../../server/src/analysis/view.ts';
import type { Complaint } from '../../server/src/planning/draft/complaint.ts';
import { draft } from '../../server/src/planning/draft/draft.ts';
import { coverageOf } from '../../server/src/proof/coverage.ts';
import { prove } from '../../server/src/proof/prove.ts';
import { checkFile } from '../../server/src/rules/run.ts';
import { viewsOf } from '../support/workspace.ts';

const complaints: readonly (readonly [folder: string, file: string, variant: string, complaint: Complaint])[] = [
  [
    'loader',
    'loader-aux.system.yaml',
    'relay-fed',
    {
      symptom: 'no auxiliary flow',
      set: [
        ['key', 'run'],
        ['engine', 'running'],
        ['seat', 'occupied'],
        ['S6', 'on'],
      ],
      when: [['Y1', 'off']],
    },
  ],
  [
    'generator',
    'genset.system.yaml',
    'twelve-volt',
    { symptom: 'generator does not crank', set: [['S1', 'manual']], when: [['M1', 'off']] },
  ],
  [
    'workboat',
    'bilge.system.yaml',
    'standard',
    {
      symptom: 'no pump runs by hand',
      set: [['S2', 'manual']],
      when: [
        ['M1', 'off'],
        ['M2', 'off'],
      ],
    },
  ],
];

describe.each(complaints)('a draft for the %s', { timeout: 120_000 }, (folder, file, variant, complaint) => {
  const text = readFileSync(`examples/${folder}/${file}`, 'utf8');

  it(`is clean, and leads every fault behind "${complaint.symptom}" to its repair`, () => {
    const { system, circuit } = viewsOf([[`test:/${file}`, text]])(`test:/${file}`) as SystemView;
    const drafted = draft(complaint, { system, variant, circuit: circuit(variant) }, file);
    const views = viewsOf([
      [`test:/${file}`, text],
      ['test:/draft.procedure.yaml', drafted.text],
    ]);
    const view = views('test:/draft.procedure.yaml') as ProcedureView;
    expect(checkFile(view).map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
    const [coverage] = coverageOf(prove(view));
    expect(coverage!.figures.walks).toBe(drafted.suspects);
    expect(coverage!.figures.covered.part).toBe(drafted.suspects);
    expect(drafted.suspects).toBeGreaterThan(50);
  });
});
