import { beforeAll, describe, expect, it } from 'vitest';
import type { Workspace } from '../../server/src/analysis/workspace.ts';
import { coverageState, previewWalk } from '../../server/src/features/coverage/coverage.ts';
import { preview } from '../../server/src/features/preview/preview.ts';
import { type Coverage, coverageOf } from '../../server/src/proof/coverage.ts';
import { prove } from '../../server/src/proof/prove.ts';
import type { CoverageLook, CoverageState, WalkChoice } from '../../server/src/protocol/coverage.ts';
import { procedureIn, project } from '../walk/support.ts';

/** Invented: a lamp behind a fuse and a switch; its procedure forgets the switch and calls a healthy fuse blown. */
const system = `format: 1
system: lamp
conditions: { key: [off, run] }
parts:
  G1: { kind: battery, title: Battery, voltage: 12 V ± 0.5 V, internal resistance: 10 mΩ }
  F1: { kind: fuse, title: Lamp fuse, rating: 5 A }
  S1: { kind: switch, title: Lamp switch, closed: { key: run }, contact resistance: 20 mΩ }
  E1: { kind: resistor, title: Lamp, resistance: 20 Ω ± 5 % }
grounds: { GND-1: Frame }
wires:
  - W1: G1.+ to F1.1, 1.5 mm², 1 m
  - W2: F1.2 to S1.1, 1.5 mm², 1 m
  - W3: S1.2 to E1.1, 1.5 mm², 1 m
  - W4: E1.2 to GND-1, 1.5 mm², 1 m
  - W5: G1.- to GND-1, 4 mm², 0.5 m
`;
const procedure = `format: 1
procedure: lamp-dark
title: The lamp stays dark
applies to: { lamp.system.yaml: all }
starts from:
  - symptom: lamp stays dark
    set: { key: run }
    shows: [F1 blown, S1 open, E1 open, W2 open, W3 open, W4 open]
    nature: hard
leaves out: { W4: The frame wire has a procedure of its own }
start: at-lamp
steps:
  at-lamp:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: G1.-
    limits: above 10 V
    minutes: 3
    then: { within: replace-lamp, otherwise: behind-fuse }
  behind-fuse:
    measure: voltage
    red: F1.2
    black: G1.-
    limits: above 10 V
    minutes: 2
    then: { within: mend-wires, otherwise: replace-fuse }
endings:
  replace-lamp: { replace: [E1] }
  replace-fuse: { replace: [F1] }
  mend-wires: { mend: [W2, W3] }
`;

let workspace: Workspace;
let coverage: readonly Coverage[];

beforeAll(() => {
  workspace = project({ 'lamp.system.yaml': system, 'lamp-dark.procedure.yaml': procedure });
  coverage = coverageOf(prove(view()));
});

const view = () => procedureIn(workspace, 'lamp-dark.procedure.yaml');
const state = (look: CoverageLook = {}, isEarlier = false) =>
  coverageState(workspace, view(), { coverage, isEarlier }, look)!;
const listed = (list: WalkChoice, look: CoverageLook = {}) =>
  state({ ...look, list }).list?.walks.map(({ fault }) => fault);

const rowOf = ({ matrix }: CoverageState, owner: string) => matrix.rows.find(row => row.owner === owner);

describe('where every fault ends', () => {
  it('is summed up by what the walks come to, counted and by likelihood', () => {
    const { summary, results, figures } = state();
    expect(summary).toBe('Of 5 walks of faults 1 ends badly. A machine without a fault ends badly.');
    // Worked by hand from the circuit: with E1 open 12 V stand at the lamp; with the fuse blown or W2 open none, but behind the fuse only
    // with W2, W3 or S1 open. Of these S1 is not among what is mended.
    expect(results.map(({ title, walks, percent }) => [title, walks, percent])).toEqual([
      ['right', 2, '40 %'],
      ['among others', 2, '40 %'],
      ['wrong part', 1, '20 %'],
    ]);
    expect(results.reduce((sum, { weighted }) => sum + weighted, 0)).toBeCloseTo(1, 12);
    // IEEE Std 1522: faults detected are divided by all faults, faults isolated by those detected.
    const told = figures.map(({ name, counted, of, percent }) => [name, counted, of, percent].join(', '));
    expect(told).toEqual(
      expect.arrayContaining([
        'Fraction of faults detected, 4 of 5, of all walks, 80 %',
        'Isolated to one name, 2 of 4, of all walks detected, 50 %',
        'Isolated to at most 3 names, 4 of 4, of all walks detected, 100 %',
        'A good part condemned, 1 of 5, of all walks, 20 %',
      ]),
    );
  });

  it('has every ending in the order of the text, with what it is for the faults that come to it', () => {
    expect(
      state().ends.map(({ at, title, walks, parts }) => [at, title, walks, parts.map(part => part.title)]),
    ).toEqual([
      ['replace-lamp', 'Replace E1', 1, ['right']],
      ['replace-fuse', 'Replace F1', 1, ['right']],
      ['mend-wires', 'Mend W2, W3', 3, ['among others', 'wrong part']],
    ]);
  });

  it('is a table of owners by endings, which unfolds to single faults', () => {
    const { matrix } = state({ unfolded: ['S1'] });
    expect(matrix.columns.map(({ at }) => at)).toEqual(['replace-lamp', 'replace-fuse', 'mend-wires']);
    expect(matrix.rows.map(({ owner }) => owner)).toEqual(['', 'F1', 'S1', 'E1', 'W2', 'W3']);
    const row = rowOf(state({ unfolded: ['S1'] }), 'S1');
    expect(row?.cells.map(({ column, walks, words }) => [column, walks, words])).toEqual([
      [2, 1, 'S1 at mend-wires: 1 ends here, wrong part'],
    ]);
    expect(row?.faults?.map(({ fault, title }) => [fault, title])).toEqual([['S1 open', 'S1 never closes']]);
    expect(rowOf(state(), 'S1')?.faults).toBeUndefined();
  });

  it('counts in every cell and figure what its list holds', () => {
    const all = state({ unfolded: ['F1', 'S1', 'E1', 'W2', 'W3'] });
    const cells = all.matrix.rows.flatMap(row => [row, ...(row.faults ?? [])]).flatMap(row => row.cells);
    const ends = all.ends.flatMap(({ parts }) => parts);
    for (const { choice, walks } of [...all.results, ...ends]) expect(listed(choice)).toHaveLength(walks);
    for (const { choice, walks, also } of cells)
      expect(listed(choice), JSON.stringify(choice)).toHaveLength(walks + also);
    for (const { choice, counted, name } of all.figures.filter(({ counted }) => / of /.test(counted))) {
      expect(choice ? (listed(choice) ?? []).length : undefined, name).toBe(Number.parseInt(counted, 10));
    }
  });

  it('knows the cell whose walks are listed', () => {
    const [cell] = rowOf(state(), 'S1')!.cells;
    const listedCells = state({ list: cell!.choice, unfolded: ['S1'] }).matrix.rows.flatMap(
      ({ owner, cells, faults = [] }) =>
        [cells, ...faults.map(fault => fault.cells)].flat().flatMap(({ isListed }) => (isListed ? owner : [])),
    );
    expect(listedCells).toEqual(['S1']);
  });

  it('leaves what is looked for, by a name or a title, or by how it ends', () => {
    const owners = (look: CoverageLook) => state(look).matrix.rows.map(({ owner }) => owner);
    expect([owners({ find: 'open' }), owners({ find: 'LAMP SWITCH' }), owners({ badOnly: true })]).toEqual([
      ['S1', 'E1', 'W2', 'W3'],
      ['S1'],
      ['', 'S1'],
    ]);
    expect(state({ find: 'w2' }).matrix).toMatchObject({ left: '1 of 5 faults', columns: [{ at: 'mend-wires' }] });
    expect(state({ find: 'nowhere' }).matrix.rows).toEqual([]);
    const cell = rowOf(state({ find: 'open' }), 'W2')!.cells[0]!;
    expect([listed(cell.choice, { find: 'w3' }), listed({ at: 'mend-wires' }, { find: 'w3' })?.length]).toEqual([
      undefined,
      3,
    ]);
  });

  it('tells faults that are left out with the reason, and those that show nothing of its symptoms', () => {
    const [leftOut, elsewhere] = state().notWalked;
    expect(leftOut).toEqual({
      title: '1 fault left out by the file',
      reason: 'The frame wire has a procedure of its own',
      owners: [{ owner: 'W4', faults: ['W4 open'] }],
    });
    expect(elsewhere?.title).toMatch(/^\d+ faults elsewhere$/);
    expect(elsewhere?.owners.find(({ owner }) => owner === 'G1')?.faults).toContain('G1 flat');
  });

  it('of an earlier text says so, and forgets a list that is empty', () => {
    const earlier = state({ list: { results: ['stuck'] } }, true);
    expect([earlier.isEarlier, earlier.list, earlier.look.list]).toEqual([true, undefined, undefined]);
    expect(earlier.said).toMatch(/being walked anew\.$/);
  });

  it('lists many walks only as far as they are read, and all where they are asked for', () => {
    const [one] = coverage;
    const many = {
      ...one!,
      walks: Array.from({ length: 100 }, () => one!.walks.find(({ fault }) => fault === 'S1 open')!),
    };
    const of = (choice: WalkChoice) =>
      coverageState(workspace, view(), { coverage: [many], isEarlier: false }, { list: choice })?.list;
    expect([of({ owner: 'S1' })?.walks.length, of({ owner: 'S1' })?.more]).toEqual([40, 60]);
    expect([of({ owner: 'S1', all: true })?.walks.length, of({ owner: 'S1', all: true })?.more]).toEqual([100, 0]);
  });
});

describe('a walk of a fault', () => {
  it('is listed with its way, and the preview can follow it to its end', () => {
    const list = state({ list: { results: ['wrong part'] } }).list!;
    expect(list.title).toBe('Wrong part: 1 walk');
    const [walk] = list.walks;
    expect(walk).toMatchObject({ fault: 'S1 open', entry: 'lamp stays dark', at: 'mend-wires', minutes: '5 min' });
    expect(walk!.way.map(({ at }) => at)).toEqual(['at-lamp', 'behind-fuse']);

    const stepped = previewWalk({ coverage }, { variant: state().look.variant, ...walk! })!;
    const shown = preview(workspace, view(), { walk: stepped });
    expect([shown.atHand.name, shown.history.length, shown.refused]).toEqual(['mend-wires', 2, undefined]);
  });

  it('is followed by the preview for every fault and every end', () => {
    const { variant } = state().look;
    for (const [walk, { ends }] of coverage[0]!.walks.entries()) {
      for (const [end, { at, isEnding }] of ends.entries()) {
        const shown = preview(workspace, view(), { walk: previewWalk({ coverage }, { variant, walk, end })! });
        if (isEnding) expect([shown.atHand.name, shown.refused]).toEqual([at, undefined]);
      }
    }
  });

  it('that is not there is none', () => {
    expect(previewWalk({ coverage }, { walk: 1000, end: 0 })).toBeUndefined();
    expect(previewWalk({ coverage }, { variant: 'gone', walk: 0, end: 0 })).toBeUndefined();
  });
});
