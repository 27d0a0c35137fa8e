import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { placeOfStanding, standingAt } from '../../server/src/features/preview/place.ts';
import { preview } from '../../server/src/features/preview/preview.ts';
import type { PreviewState, PreviewWalk, Sheet } from '../../server/src/protocol/preview.ts';
import { procedureIn, project } from '../walk/support.ts';

const folder = new URL('../../examples/loader/', import.meta.url);
const loader = Object.fromEntries(
  fs.readdirSync(folder).map(name => [name, fs.readFileSync(new URL(name, folder), 'utf8')] as const),
);
const name = 'aux-flow-drops-out.procedure.yaml';
const unchanged = project(loader);

function shown(walk: Partial<PreviewWalk> = {}, more: { playToEnd?: boolean; files?: Record<string, string> } = {}) {
  const workspace = more.files ? project(more.files) : unchanged;
  const params = { walk: { answers: [], ...walk }, playToEnd: more.playToEnd };
  return preview(workspace, procedureIn(workspace, name), params);
}

const answers = (...given: string[]) =>
  given.map(each => ({ at: each.slice(0, each.indexOf(' ')), text: each.slice(each.indexOf(' ') + 1) }));
const toSenseIdle = answers('look all sound', 'try-it flow stops', 'bulletins done', 'codes C1A05 keypad signal');

function rowOf({ rows }: Sheet, label: string) {
  return rows
    .find(row => row.label === label)
    ?.entries.map(({ text, note, mark }) => [text, note, mark].filter(Boolean).join(', '));
}

const chosen = (options: PreviewState['starts']) => options.filter(one => one.chosen).map(one => one.label);

describe('the preview of a procedure', () => {
  it('begins at the first way in, on the first machine, with what there is to choose', () => {
    const state = shown();
    expect([state.title, state.sheet.name, state.sheet.isAtHand]).toEqual([
      'Auxiliary flow stops by itself',
      'look',
      true,
    ]);
    expect(state.starts.map(one => one.label)).toEqual([
      'flow stops without a command',
      'flow grows weak when warm',
      'code C1A05',
      'code C1A11',
    ]);
    expect([chosen(state.starts), chosen(state.variants)]).toEqual([
      ['flow stops without a command'],
      ['Valve feed from a switched fuse'],
    ]);
    expect(state.cautions.map(one => one.word)).toEqual(['warning', 'notice']);
    expect(state.samples).toHaveLength(6);
  });

  it('shows a step as it is done: what to set, where the leads go, limits, and what the circuit gives', () => {
    const { sheet } = shown({ answers: toSenseIdle });
    expect(sheet.title).toBe('Keypad sense voltage, no button held');
    expect(rowOf(sheet, 'Set')).toEqual([
      'engine: stopped, done',
      'key: run, done',
      "seat: occupied, Operator's seat, done",
      'S6: idle, Flow keypad',
    ]);
    expect(rowOf(sheet, 'Red lead')).toEqual(['A1.14, from behind the plug, Loader control module']);
    expect(rowOf(sheet, 'Limits')).toEqual(['4.48 V .. 4.75 V, keypad-sense/idle']);
    expect(rowOf(sheet, 'The circuit gives')?.[0]).toMatch(/^4\.5\d V \.\. 4\.7\d V, nominal 4\.6\d V$/);
    expect(sheet.question).toMatchObject({ ask: 'reading', label: 'The meter shows' });
    expect(sheet.branches.map(({ key, range, to }) => [key, range, to])).toEqual([
      ['within', '4.48 V .. 4.75 V', 'seat-seen'],
      ['above', 'above 4.75 V', 'keypad-end'],
      ['otherwise', undefined, 'sense-short'],
    ]);
  });

  it('shows what limits from the circuit come to, in the machine that is walked', () => {
    const { sheet } = shown({ answers: [...toSenseIdle, ...answers('sense-idle 4.9 V')] });
    // The keypad of 18 kΩ ± 2 % at 5 V ± 2 % behind 1.5 kΩ ± 1 %: 4.9 V · 17.64 / 19.155 = 4.512 V and 5.1 V · 18.36 / 19.845 = 4.718 V.
    // A margin of 1 %, and the meter with 0.5 % and 2 mV: 4.512 V - 45 mV - 24.6 mV = 4.442 V; 4.718 V + 47 mV + 25.6 mV = 4.791 V.
    expect([sheet.name, rowOf(sheet, 'Limits')]).toEqual(['keypad-end', ['4.442 V .. 4.791 V, from the circuit']]);
    expect(sheet.branches.map(({ key, range }) => [key, range]).slice(0, 2)).toEqual([
      ['within', '4.442 V .. 4.791 V'],
      ['4.8 V .. 5.5 V', undefined],
    ]);
  });

  it('goes on and says why, and refuses what it cannot read without moving', () => {
    const on = shown({ answers: [...toSenseIdle, ...answers('sense-idle 4,6 V')] });
    expect(on.history.at(-1)).toMatchObject({ name: 'sense-idle', text: '4,6 V', why: 'within 4.48 V .. 4.75 V' });
    expect([on.atHand.name, on.said]).toEqual(['seat-seen', '`4,6 V` is within 4.48 V .. 4.75 V. On to `seat-seen`']);

    const refused = shown({ answers: [...toSenseIdle, ...answers('sense-idle 4.6')] });
    expect(refused.refused).toMatchObject({ message: 'The unit is missing after `4.6`', suggestion: '4.6 V' });
    expect([refused.atHand.name, refused.walk.answers]).toEqual(['sense-idle', toSenseIdle]);
  });

  it('names a repair, and goes on to its confirmation and to the end', () => {
    const repair = shown({ answers: answers('look pilot hose chafed or kinked') });
    expect([repair.sheet.kind, repair.sheet.title, repair.sheet.isFinal]).toEqual(['ending', 'Replace hose-P1', false]);
    expect(repair.sheet.question).toEqual({ ask: 'go on', label: 'Repair done, confirm it' });
    const over = shown({
      answers: [
        ...answers('look pilot hose chafed or kinked', 'replace-hose '),
        ...answers('confirm-drive flow holds'),
      ],
    });
    expect([over.sheet.title, over.sheet.isFinal]).toEqual(['Repaired: The flow holds over the whole drive', true]);
  });

  it('computes for the machine and for what was done on the way', () => {
    const relay = shown().variants.find(one => one.label.includes('relay'))!.id;
    const step = (variant?: string) => shown({ variant, shown: 'feed-wiggle' }).sheet;
    expect(rowOf(step(), 'Meanwhile wiggle')).not.toEqual(rowOf(step(relay), 'Meanwhile wiggle'));
    expect(rowOf(shown({ from: 'keypad-alone' }).sheet, 'Must hold')).toEqual(['key: off, QS1: off']);
    // 18 kΩ ± 2 %: 17.64 kΩ and 18.36 kΩ.
    expect(rowOf(shown({ from: 'keypad-alone' }).sheet, 'The circuit gives')?.[0]).toMatch(/^17\.6/);
  });

  it('looks at another step while the walk stands where it is', () => {
    const state = shown({ answers: toSenseIdle, shown: 'valve-ohms' });
    expect([state.sheet.name, state.sheet.isAtHand, state.atHand.name]).toEqual(['valve-ohms', false, 'sense-idle']);
    expect(shown({ answers: toSenseIdle, shown: 'sense-idle' }).walk.shown).toBeUndefined();
    expect(shown({ answers: toSenseIdle, shown: 'gone' }).sheet.name).toBe('sense-idle');
  });

  it('starts at any step', () => {
    const state = shown({ from: 'keypad-alone' });
    expect([state.sheet.name, chosen(state.starts)]).toEqual(['keypad-alone', ['step keypad-alone']]);
  });

  it('keeps the walk as far as it holds when the text changes', () => {
    const text = loader[name]!.replace(
      'C1A05 keypad signal: { go to: sense-idle,',
      'C1A05 keypad signal: { go to: keypad-end,',
    );
    const given = [...toSenseIdle, ...answers('sense-idle 4.6 V')];
    const state = shown({ answers: given }, { files: { ...loader, [name]: text } });
    expect([state.atHand.name, state.walk.answers]).toEqual(['keypad-end', toSenseIdle]);
    expect(state.refused?.message).toBe('The walk no longer comes to `sense-idle`');
  });

  it('does without a system', () => {
    const state = shown({ answers: toSenseIdle }, { files: { [name]: loader[name]! } });
    expect([state.sheet.name, rowOf(state.sheet, 'The circuit gives'), state.variants]).toEqual([
      'sense-idle',
      undefined,
      [{ id: 'standard', label: 'standard', chosen: true }],
    ]);
  });

  it('survives a procedure that is only begun', () => {
    for (const text of ['', 'format: 1\n', 'steps:\n', 'start: look\n', 'start: look\nsteps:\n  look:\n']) {
      const state = shown({ answers: toSenseIdle }, { files: { [name]: text } });
      expect(state.sheet.kind, text).toBe(text.endsWith('look:\n') ? 'step' : 'nowhere');
    }
  });
});

describe('half-typed files', () => {
  it.each([
    [name, 'the procedure'],
    ['loader-aux.system.yaml', 'its system'],
    ['aux-flow-drops-out.samples.yaml', 'its samples'],
  ])('%s, cut anywhere, still gives a preview', file => {
    const workspace = project(loader);
    const text = loader[file]!;
    const given = [...toSenseIdle, ...answers('sense-idle 4.6 V')];
    for (let end = 0; end < text.length; end += 397) {
      workspace.set(`file:///project/${file}`, text.slice(0, end));
      for (const walk of [{ answers: given }, { answers: given, shown: 'valve-ohms' }]) {
        const { history, sheet } = preview(workspace, procedureIn(workspace, name), { walk });
        expect([history.length <= given.length, sheet.title !== ''], `${file} to ${end}`).toEqual([true, true]);
      }
    }
  });
});

describe('a sample walk in the preview', () => {
  const id = shown().samples.find(one => one.label.startsWith('sense wire'))!.id;

  it('gives its readings one by one', () => {
    const first = shown({ sample: id });
    expect(first.played).toEqual({
      name: 'sense wire opens when the lever base is moved',
      expected: 'mend-W41',
      next: 'all sound',
    });
    expect(shown({ sample: id, answers: answers('look all sound') }).played?.next).toBe('flow stops');
  });

  it('is played to its end, and says that it reached its ending', () => {
    const state = shown({ sample: id }, { playToEnd: true });
    expect([state.atHand.name, state.history.length]).toEqual(['mend-W41', 11]);
    expect(state.played?.verdict).toEqual({ reached: true, message: 'Reached its ending `mend-W41`' });
  });

  it('says where it goes astray', () => {
    const samples = 'aux-flow-drops-out.samples.yaml';
    const text = loader[samples]!.replace('keypad-end: 0.00 V', 'keypad-end: 4.6 V');
    const state = shown({ sample: id }, { playToEnd: true, files: { ...loader, [samples]: text } });
    expect(state.played?.verdict).toMatchObject({
      reached: false,
      message: 'The walk stops at `sense-short`, for which it has no reading',
    });
  });

  it('brings its own variant and way in', () => {
    const seat = shown().samples.find(one => one.label.startsWith('seat switch'))!.id;
    const state = shown({ sample: seat });
    expect([chosen(state.variants), chosen(state.starts)]).toEqual([
      ['Valve feed through a supply relay'],
      ['code C1A11'],
    ]);
  });
});

describe('steps in the text', () => {
  const view = procedureIn(unchanged, name);

  it('are found from their name, and from any place in them', () => {
    const place = placeOfStanding(view, 'sense-idle')!;
    expect(view.tree.text.slice(place.start, place.end)).toBe('sense-idle');
    expect(standingAt(view, view.tree.text.indexOf('specification: keypad-sense/idle') + 5)).toBe('sense-idle');
    expect(standingAt(view, view.tree.text.indexOf('mend: [W52, GND-4]'))).toBe('mend-valve-ground');
    expect([placeOfStanding(view, 'gone'), standingAt(view, 0)]).toEqual([undefined, undefined]);
  });
});
