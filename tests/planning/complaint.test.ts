import { describe, expect, it } from 'vitest';
import type { SystemView } from '../../server/src/analysis/view.ts';
import type { Bench } from '../../server/src/planning/bench.ts';
import { seenOn, settableOn } from '../../server/src/planning/draft/choices.ts';
import { tryDraft } from '../../server/src/planning/draft/try-draft.ts';
import { heaterSystem } from '../support/heater.ts';
import { systemsByName } from '../support/systems.ts';
import { viewsOf } from '../support/workspace.ts';

function benchOn(text: string, variant?: string): Bench {
  const view = viewsOf([['test:/one.system.yaml', text]])('test:/one.system.yaml') as SystemView;
  const chosen = variant ?? view.system.variants[0]!;
  return { system: view.system, variant: chosen, circuit: view.circuit(chosen) };
}

const keypad = systemsByName.get('keypad.system.yaml')!;

describe('what a complaint can name', () => {
  it('is what a load does and what scan data show, with their states', () => {
    const seen = new Map(seenOn(benchOn(keypad)).map(one => [one.name, one]));
    expect(seen.get('A1 keypad')).toEqual({
      name: 'A1 keypad',
      title: undefined,
      sort: 'scan data',
      states: ['off', 'on', 'idle'],
    });
    expect([seen.has('key'), seen.has('S6'), seen.has('A1 feed voltage')]).toEqual([false, false, false]);
  });

  it('is what can be set, with where it rests, also where that is a number', () => {
    const settable = new Map(settableOn(benchOn(keypad)).map(one => [one.name, one]));
    expect(settable.get('key')).toMatchObject({ states: ['off', 'run'], rest: 'off' });
    expect(settable.get('oil temperature')).toMatchObject({ states: [], rest: '20 °C' });
    expect(settable.get('S6')).toMatchObject({ sort: 'part', rest: 'idle' });
  });

  it('is only what there is in the variant', () => {
    const text = heaterSystem
      .replace('conditions:', 'variants: { short: Short, long: Long }\nconditions:')
      .replace('H1: { kind: heater,', 'H1: { kind: heater, only: long,');
    expect(seenOn(benchOn(text, 'long')).map(({ name }) => name)).toContain('H1');
    expect(seenOn(benchOn(text, 'short')).map(({ name }) => name)).not.toContain('H1');
  });
});

describe('a complaint', () => {
  const cold = { symptom: 'heater stays cold', set: [['key', 'run']], when: [['H1', 'off']] } as const;
  const needy = heaterSystem.replace(
    'key: [off, run]',
    'key: [off, run]\n  master: [off, on]\n  engine: { states: [off, on], needs: { on: { master: on } } }\n  water: { from: 0 °C, to: 90 °C, rest: 20 °C }',
  );
  const refusedFor = (set: readonly (readonly [string, string])[]) =>
    tryDraft({ ...cold, set }, benchOn(needy), 'one.system.yaml').refused;

  it('is refused where a good machine does the same', () => {
    expect(refusedFor([])).toEqual({ because: 'good machine', message: 'A good machine shows `H1` at off as well' });
  });

  it('is refused where what is set cannot be', () => {
    expect(
      refusedFor([
        ['key', 'run'],
        ['engine', 'on'],
      ]),
    ).toEqual({
      because: 'not possible',
      message: '`engine` can only be on with `master` at on',
    });
    expect(
      refusedFor([
        ['key', 'run'],
        ['water', '120 °C'],
      ]),
    ).toEqual({
      because: 'not possible',
      message: '`water` cannot be at 120 °C',
    });
    expect(
      refusedFor([
        ['key', 'run'],
        ['water', 'hot'],
      ])?.because,
    ).toBe('not possible');
    expect(
      refusedFor([
        ['key', 'run'],
        ['engine', 'on'],
        ['master', 'on'],
        ['water', '80 °C'],
      ]),
    ).toBeUndefined();
  });

  it('is refused where no fault does it', () => {
    const both = {
      ...cold,
      when: [
        ['H1', 'on'],
        ['H1', 'off'],
      ],
    } as const;
    expect(tryDraft(both, benchOn(heaterSystem), 'one.system.yaml').refused).toEqual({
      because: 'no fault',
      message: 'No modelled fault shows this complaint',
    });
  });

  it('is drafted whole also where the search of the best order is ended early', () => {
    const { drafted } = tryDraft(cold, benchOn(heaterSystem), 'one.system.yaml', { cancelled: () => true });
    expect(drafted?.text).toMatch(/\nsteps:\n {2}look:\n[\s\S]*\nendings:\n[\s\S]* {2}done: /);
  });
});
