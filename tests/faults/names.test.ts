import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { faultsNamed } from '../../server/src/analysis/faults/names.ts';
import type { SystemView } from '../../server/src/analysis/view.ts';
import { completion } from '../../server/src/features/completion/completion.ts';
import { definition } from '../../server/src/features/definition.ts';
import { hover } from '../../server/src/features/hover/hover.ts';
import { rename } from '../../server/src/features/rename.ts';
import { lampScene, type Scene } from '../features/support.ts';

/** The lamp of tests/features with faults; `$0` is the cursor. */
function withFaults(faults: string): Scene {
  return lampScene(files => {
    files['lamp.system.yaml'] += `faults:\n${faults}\n`;
  });
}

function listOf(faults: string) {
  const { system } = withFaults(faults).view as SystemView;
  return faultsOf(system, 'plain');
}

describe('a written name', () => {
  const list = listOf('  W6 open: { likelihood: 1 }');
  const named = (name: string) => faultsNamed(list, name).map(f => f.id);

  it('means one fault by its id', () => expect(named('W4 open before X1/1')).toEqual(['W4 open before X1/1']));

  it('means each piece of a wire and each cavity of a connector', () => {
    expect(named('W4 open')).toEqual(['W4 open before X1/1', 'W4 open after X1/1']);
    expect(named('X1 open')).toEqual(['X1/1 open', 'X1/2 open']);
    expect(named('SP1 open')).toEqual(['SP1 open at W2', 'SP1 open at W3', 'SP1 open at W7']);
  });

  it('means two wires that touch, whichever is named first', () => {
    expect(named('W5 short to W4')).toEqual(['W5 short to W4 before X1/2', 'W5 short to W4 after X1/2']);
    expect(named('W4 short to W5')).toEqual(named('W5 short to W4'));
  });

  it('means all that a repair of a thing removes', () => {
    expect(named('W6')).toEqual(expect.arrayContaining(['W6 open', 'W6 high resistance', 'G1.- open']));
    expect(named('W6')).not.toContain('G1 open');
  });

  it('means nothing where there is nothing', () => expect(named('W66 open')).toEqual([]));
});

describe('the section `faults`', () => {
  it('shares a likelihood among the faults that it is given to', () => {
    const list = listOf('  W4 open: { likelihood: 5, severity: 3 }');
    const mine = list.filter(f => f.owner === 'W4' && f.kind === 'open');
    expect(mine.map(f => [f.likelihood, f.severity, f.likelihoodSource])).toEqual([
      [2.5, 3, 'this file, shared'],
      [2.5, 3, 'this file, shared'],
    ]);
  });

  it('sets how far a soft fault goes', () => {
    const list = listOf('  W6 high resistance: { resistance: 5 Ω }\n  G1 flat: { voltage: 9 V }');
    expect(list.find(f => f.id === 'W6 high resistance')).toMatchObject({ extent: { value: 5, source: 'this file' } });
    expect(list.find(f => f.id === 'G1 flat')?.changes).toEqual([{ do: 'source', id: 'G1', volts: 9 }]);
  });

  it('lets the edit of one fault go before that of several', () => {
    const list = listOf('  W4 open before X1/1: { excluded: Rigid }\n  W4 open: { likelihood: 5, excluded: Armoured }');
    expect(list.filter(f => f.owner === 'W4' && f.kind === 'open').map(f => [f.likelihood, f.excluded])).toEqual([
      [2.5, 'Rigid'],
      [2.5, 'Armoured'],
    ]);
  });

  it('sets no value that a fault does not have', () => {
    const list = listOf('  S1 open: { resistance: 5 Ω, voltage: 3 V }\n  G1 cell shorted: { voltage: 3 V }');
    expect(list.find(f => f.id === 'S1 open')?.extent).toBeUndefined();
    expect(list.find(f => f.id === 'G1 cell shorted')?.extent?.dimension).toBe('ratio');
  });

  it('excludes with a reason and keeps the fault in the list', () => {
    const list = listOf('  W6 open: { excluded: A copper bar }');
    expect(list.find(f => f.id === 'W6 open')?.excluded).toBe('A copper bar');
  });

  it('adds what does not follow from the wiring, electrical or not', () => {
    const list = listOf('  W2 short to W6: { added: One clip }\n  W2 eaten: { added: Mice }');
    const touching = list.find(f => f.id === 'W2 short to W6')!;
    expect(touching).toMatchObject({ owner: 'W2', mendedBy: ['W2', 'W6'], added: 'One clip', kind: 'short to W6' });
    expect(touching.changes).toHaveLength(1);
    expect(list.find(f => f.id === 'W2 eaten')).toMatchObject({ owner: 'W2', changes: [], added: 'Mice' });
  });
});

describe('names inside the name of a fault', () => {
  it.each([
    ['W$05 short to W4 before X1/2', 'W5: E1.2'],
    ['W5 short to W$04 before X1/2', 'W4: S1.2'],
    ['W5 short to W4 before X$01/2', 'X1: { title'],
    ['SP1 open at W$07', 'W7: SP1'],
  ])('%s leads to what it names', (text, declared) => {
    const { workspace, view, offset } = withFaults(`  ${text}: { likelihood: 2 }`);
    const [place] = definition(workspace, view, offset);
    expect(view.tree.text.slice(place!.start).startsWith(declared)).toBe(true);
  });

  it('are renamed with the rest', () => {
    const { workspace, view, offset } = withFaults('  W5 short to W$04 before X1/2: { likelihood: 2 }');
    const at = view.tree.text.indexOf('short to W4') + 'short to '.length;
    const edits = JSON.stringify(rename(workspace, view, offset, 'W44'));
    expect(edits).toContain(`"start":${at},"end":${at + 2}`);
  });

  it('are offered from the derived list', () => {
    const { workspace, view, offset } = withFaults('  $0');
    const labels = completion(workspace, view, offset).map(one => one.label);
    expect(labels).toEqual(expect.arrayContaining(['W6 open', 'K1 welded', 'hose one chafed', 'A1 ground lost']));
    expect(labels).not.toContain('W6');
  });
});

describe('the hover over a fault', () => {
  it.each([
    ['  W6 op$0en: { likelihood: 2 }', 'W6 is broken between G1.- and GND-1'],
    ['  W6 op$0en: { excluded: A copper bar }', 'Excluded: A copper bar'],
    ['  W6 hi$0gh resistance: { likelihood: 2 }', '1 Ω (common practice, no source)'],
    ['  X1 o$0pen: { likelihood: 2 }', 'X1/2 makes no contact'],
  ])('of %s says %s', (text, said) => {
    const { workspace, view, offset } = withFaults(text);
    expect(hover(workspace, view, offset)?.markdown).toContain(said);
  });
});
